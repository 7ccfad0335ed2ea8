#include "build/parts_of.hpp"
#include "finding/carried.hpp"
#include "finding/rule_list.hpp"
#include "part/terminal_block/terminal_block.hpp"

namespace tideover::finding {

namespace {

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const part::TerminalBlock* one : parts_of<part::TerminalBlock>(evidence.build)) {
    const auto finding = judge_current(evidence, {.part = one->name,
                                                  .key = "rated",
                                                  .channel = "current of the busiest clamp",
                                                  .rating = "clamp current",
                                                  .carries = "The busiest clamp of " + one->name,
                                                  .rated = &one->rated});
    if (finding) found.push_back(*finding);
  }
  return found;
}

}  // namespace

const Rule& terminal_current() {
  static const Rule rule{
      .key = "terminal_current",
      .title = "Current of a clamp",
      .words =
          "Every lead of a bar ends in one clamp, and the one that feeds the bar carries the "
          "sum of the others. That clamp decides.",
      .formula = "I <= I_rated of one clamp",
      .source = "IEC 60998-1: rated current of a clamp, from memory",
      .caution = "Tighten screws again after a month: copper creeps.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

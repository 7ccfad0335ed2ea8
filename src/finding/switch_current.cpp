#include "build/parts_of.hpp"
#include "finding/carried.hpp"
#include "finding/rule_list.hpp"
#include "part/switch/switch.hpp"

namespace tideover::finding {

namespace {

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const part::Switch* one : parts_of<part::Switch>(evidence.build)) {
    for (int pole = 0; pole < one->poles; ++pole) {
      const std::string which =
          one->poles > 1 ? std::string("current of pole ") + static_cast<char>('a' + pole)
                         : "current";
      const auto finding = judge_current(evidence, {.part = one->name,
                                                    .key = "rated",
                                                    .channel = which,
                                                    .rating = "contact current",
                                                    .carries = "A contact of " + one->name,
                                                    .rated = &one->rated});
      if (finding) found.push_back(*finding);
    }
  }
  return found;
}

}  // namespace

const Rule& switch_current() {
  static const Rule rule{
      .key = "switch_current",
      .title = "Current of a switch",
      .words =
          "What counts for a switch is its rating at direct current; the one printed large on "
          "it is for alternating current and may be ten times as much.",
      .formula = "I <= I_rated, DC",
      .source = "IEC 61058-1: ratings of switches for appliances, from memory",
      .caution =
          "Switch off the loads before the pack: an arc at direct current does not go out by "
          "itself.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

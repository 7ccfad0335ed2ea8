#include "finding/carried.hpp"
#include "finding/rails.hpp"
#include "finding/rule_list.hpp"
#include "part/diode/diode.hpp"
#include "part/ideal_diode/ideal_diode.hpp"
#include "part/polarity_guard/polarity_guard.hpp"

namespace tideover::finding {

namespace {

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const part::Diode* one : parts_of<part::Diode>(evidence.build)) {
    const auto finding = judge_current(evidence, {.part = one->name,
                                                  .key = "rated",
                                                  .channel = "current",
                                                  .rating = "forward current",
                                                  .carries = one->name,
                                                  .rated = &one->rated});
    if (finding) found.push_back(*finding);
  }
  for (const part::IdealDiode* one : parts_of<part::IdealDiode>(evidence.build)) {
    const auto finding = judge_current(evidence, {.part = one->name,
                                                  .key = "rated",
                                                  .channel = "current",
                                                  .rating = "rated current",
                                                  .carries = one->name,
                                                  .rated = &one->rated});
    if (finding) found.push_back(*finding);
  }
  for (const part::PolarityGuard* one : parts_of<part::PolarityGuard>(evidence.build)) {
    const auto finding = judge_current(evidence, {.part = one->name,
                                                  .key = "rated",
                                                  .channel = "current",
                                                  .rating = "rated current",
                                                  .carries = one->name,
                                                  .rated = &one->rated});
    if (finding) found.push_back(*finding);
  }
  return found;
}

}  // namespace

const Rule& diode_current() {
  static const Rule rule{
      .key = "diode_current",
      .title = "Current of a diode",
      .words =
          "A diode that joins two sources carries the whole of what hangs behind it, for hours. "
          "Its rated current holds at a cool case; take one made for twice as much.",
      .formula = "I <= I_rated",
      .source = "the parts' data sheets; twice as much: common practice, no source",
      .caution = "",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

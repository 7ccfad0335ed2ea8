#include "build/parts_of.hpp"
#include "finding/carried.hpp"
#include "finding/rule_list.hpp"
#include "part/diode/diode.hpp"
#include "part/ideal_diode/ideal_diode.hpp"
#include "part/polarity_guard/polarity_guard.hpp"

namespace tideover::finding {

namespace {

template <class Kind>
void judge_all(const Evidence& evidence, const char* rating, std::vector<Finding>& found) {
  for (const Kind* one : parts_of<Kind>(evidence.build)) {
    const auto finding = judge_current(evidence, {.part = one->name,
                                                  .key = "rated",
                                                  .channel = "current",
                                                  .rating = rating,
                                                  .carries = one->name,
                                                  .rated = &one->rated});
    if (finding) found.push_back(*finding);
  }
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  judge_all<part::Diode>(evidence, "forward current", found);
  judge_all<part::IdealDiode>(evidence, "rated current", found);
  judge_all<part::PolarityGuard>(evidence, "rated current", found);
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

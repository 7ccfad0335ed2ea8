#include <cmath>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/carried.hpp"
#include "finding/rule_list.hpp"
#include "part/diode/diode.hpp"
#include "part/ideal_diode/ideal_diode.hpp"
#include "part/polarity_guard/polarity_guard.hpp"

namespace tideover::finding {

namespace {

using quantity::Temperature;

/// From which the rise of a junction is counted.
constexpr double usual_k = Temperature::zero_celsius_k + 25.0;

struct Warm {
  std::string part;
  Temperature hottest;
};

template <class Kind>
void add_all(const build::Build& build, std::vector<Warm>& all) {
  for (const Kind* one : parts_of<Kind>(build))
    all.push_back({one->name, Temperature::of_si(one->hottest.low_si)});
}

Finding finding_of(const Warm& diode, const Reached& reached) {
  const double limit_k = diode.hottest.si();
  Finding finding =
      measured_against<Temperature>(diode.part, reached.value_si, limit_k, Limits::Above);
  finding.margin = (limit_k - reached.value_si) / (limit_k - usual_k);
  finding.answer = answer_of(*finding.margin);
  finding.sentence = fmt::format("The junction of {} comes to {}, {}; it stands {}.", diode.part,
                                 quantity::show(Temperature::of_si(reached.value_si)),
                                 when_and_where(reached), quantity::show(diode.hottest));
  if (finding.answer == Answer::Holds) return finding;
  const double share = (1.0 - tight_share) * (limit_k - usual_k) / (reached.value_si - usual_k);
  finding.advice = fmt::format(
      "{}: body_resistance = {:.0f} % of what it is or less, by copper at its leads or a bigger "
      "one; or one that drops less.",
      diode.part, std::floor(100.0 * share));
  finding.brief = diode.part + " gets too hot";
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Warm> all;
  add_all<part::Diode>(evidence.build, all);
  add_all<part::IdealDiode>(evidence.build, all);
  add_all<part::PolarityGuard>(evidence.build, all);
  std::vector<Finding> found;
  for (const Warm& diode : all) {
    const auto reached = extreme(evidence, diode.part, "junction temperature", Limits::Above);
    if (reached) found.push_back(finding_of(diode, *reached));
  }
  return found;
}

}  // namespace

const Rule& diode_heat() {
  static const Rule rule{
      .key = "diode_heat",
      .title = "Heat of a diode",
      .words =
          "A diode turns its forward voltage into heat all the time: half a volt at three "
          "amperes are one and a half watts, on a part without a heat sink. Schottky ones leak "
          "more the hotter they are, and run away.",
      .formula = "T_j = T_air + U_f I R_th <= T_max; margin: (T_max - T) / (T_max - 25 degC)",
      .source =
          "the parts' data sheets; 3 A through a 3 A Schottky diode: 0.525 V, 1.575 W by a "
          "datasheet (read)",
      .caution = "A diode at its limit burns fingers and brown marks into boards.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

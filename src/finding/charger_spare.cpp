#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/demand.hpp"
#include "finding/rule_list.hpp"
#include "part/adapter/adapter.hpp"

namespace tideover::finding {

using quantity::Ampere;
using quantity::Volt;

namespace {

struct Pair {
  const part::Adapter& adapter;
  const part::Charger& charger;
  Volt fed;      ///< at the adapter's full load
  Ampere spare;  ///< what is left beside all else on the adapter

  [[nodiscard]] Ampere taken(Ampere limit) const { return input_current(charger, fed, limit); }
};

/// The setting that leaves a tenth of the spare current unused, in steps of 10 mA.
std::string setting(const Pair& pair) {
  const double upwards = pair.charger.current.high_si / pair.charger.current.si();
  const Ampere wanted = (1.0 - 1.001 * tight_share) * pair.spare;
  double low = 0.0;
  double high = pair.charger.current.si();
  for (int k = 0; k < 60; ++k) {
    const double middle = 0.5 * (low + high);
    (pair.taken(Ampere::of_si(upwards * middle)) < wanted ? low : high) = middle;
  }
  if (low < 0.01) return fmt::format("{}: another adapter, for it alone.", pair.charger.name);
  return fmt::format("{}: current = {} or less.", pair.charger.name,
                     rounded_down(Ampere::of_si(low), Ampere::of_si(0.01)));
}

Finding finding_of(const Pair& pair) {
  const Ampere taken = pair.taken(pair.charger.current.high());
  Finding finding =
      measured_against<Ampere>(pair.charger.name, taken.si(), pair.spare.si(), Limits::Above);
  finding.sentence = fmt::format(
      "{} takes up to {} from {} at its limit of {}, where {} of {} are spare while all else takes "
      "its most.",
      pair.charger.name, quantity::show(taken), pair.adapter.name,
      quantity::show(pair.charger.current), quantity::show(pair.spare),
      quantity::show(pair.adapter.rated.nominal()));
  if (finding.answer != Answer::Holds) finding.advice = setting(pair);
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Rails rails(evidence.build);
  std::vector<Finding> found;
  for (const part::Adapter* adapter : parts_of<part::Adapter>(evidence.build)) {
    for (const part::Charger* charger : parts_of<part::Charger>(evidence.build)) {
      if (!rails.feeds({adapter->name, "plus"}, {charger->name, "in_plus"})) continue;
      const Volt fed =
          adapter->output.low() - adapter->rated.nominal() * adapter->source_resistance.nominal();
      const Ampere others = peak_demand(evidence.build, rails, {adapter->name, "plus"}, fed);
      found.push_back(finding_of({*adapter, *charger, fed, adapter->rated.nominal() - others}));
    }
  }
  return found;
}

}  // namespace

const Rule& charger_spare() {
  static const Rule rule{
      .key = "charger_spare",
      .title = "The charger and the adapter's spare current",
      .words =
          "The charger takes only what the adapter's own device leaves, even while that device "
          "takes its most and the charger's limit is at the upper end of its tolerance: else "
          "the rail collapses and the device goes down with the mains present.",
      .formula =
          "(U_charge + losses) I_limit (1 + tolerance) / U_adapter <= I_rated - sum of peak "
          "currents of all else",
      .source = "power balance; a tenth in reserve: common practice, no source",
      .caution = {},
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

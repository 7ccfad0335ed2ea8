#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/rule_list.hpp"
#include "finding/spare_current.hpp"

namespace tideover::finding {

using quantity::Ampere;

namespace {

Finding finding_of(const part::Adapter& adapter, const SpareCurrent& one) {
  const part::Charger& charger = *one.charger;
  const Ampere taken = one.taken(charger.current.high());
  Finding finding =
      measured_against<Ampere>(charger.name, taken.si(), one.spare.si(), Limits::Above);
  finding.sentence = fmt::format(
      "{} takes up to {} from {} at its limit of {}, where {} of {} are spare while all else takes "
      "its most.",
      charger.name, quantity::show(taken), adapter.name, quantity::show(charger.current),
      quantity::show(one.spare), quantity::show(adapter.rated.nominal()));
  if (finding.answer != Answer::Holds) finding.advice = one.advice() + ".";
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Rails rails(evidence.build);
  std::vector<Finding> found;
  for (const part::Adapter* adapter : parts_of<part::Adapter>(evidence.build)) {
    for (const part::Charger* charger : parts_of<part::Charger>(evidence.build)) {
      if (!rails.feeds({adapter->name, "plus"}, {charger->name, "in_plus"})) continue;
      found.push_back(
          finding_of(*adapter, spare_current(evidence.build, rails, *adapter, *charger)));
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

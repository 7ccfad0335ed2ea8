#include <algorithm>

#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/pack_company.hpp"
#include "finding/rule_list.hpp"
#include "finding/witness.hpp"

namespace tideover::finding {

using quantity::Ampere;

namespace {

Finding finding_of(const Evidence& evidence, const PackCompany& company) {
  const part::Pack& pack = *company.pack;
  double set_a = 0.0;
  std::string chargers;
  for (const part::Charger* charger : company.chargers) {
    set_a += charger->current.high_si;
    chargers += (chargers.empty() ? "" : " and ") + charger->name;
  }
  const auto [current_a, why] =
      or_exceeded({set_a, fmt::format("the limit of {} with its tolerance", chargers)}, evidence,
                  pack.name, "charge current");
  const double limit_a = pack.cell.charge_current.si();
  Finding finding =
      measured_against<Ampere>(pack.name, current_a / pack.parallel, limit_a, Limits::Above);
  finding.sentence =
      fmt::format("{} is charged with up to {} a cell, {} in {} side by side; a cell takes {}: {}.",
                  pack.name, quantity::show(Ampere::of_si(current_a / pack.parallel)),
                  quantity::show(Ampere::of_si(current_a)), pack.parallel,
                  quantity::show(pack.cell.charge_current.nominal()), why);
  if (finding.answer == Answer::Holds) return finding;
  finding.brief = pack.name + " is charged with more than its cells take";
  if (company.chargers.empty()) {
    finding.advice = pack.name + ": less from what charges it, or more cells side by side.";
    return finding;
  }
  const part::Charger& first = *company.chargers.front();
  const double share = first.current.si() / std::max(set_a, 1e-9);
  finding.advice = fmt::format(
      "{}: current = {} or less; or more cells side by side.", first.name,
      rounded_down(Ampere::of_si(0.999 * (1.0 - tight_share) * limit_a * pack.parallel * share),
                   Ampere::of_si(0.01)));
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) { return of_each_pack(evidence, finding_of); }

}  // namespace

const Rule& cell_charge_current() {
  static const Rule rule{
      .key = "cell_charge_current",
      .title = "Charge current of a cell",
      .words =
          "All chargers together give a cell no more than its data sheet allows, with their "
          "limits at the upper end of their tolerance.",
      .formula =
          "I_limit (1 + tolerance) / cells side by side <= I_charge of the cell; tight above "
          "nine tenths",
      .source = "the cell's data sheet; the tenth: common practice, no source",
      .caution = "Lithium cells that are charged too fast plate metal and may short inside.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

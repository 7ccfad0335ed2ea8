#include <algorithm>

#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/pack_company.hpp"
#include "finding/rule_list.hpp"
#include "finding/witness.hpp"

namespace tideover::finding {

using quantity::Temperature;

namespace {

/// A sensor or a forecast is wrong by this much. Common practice, no source.
constexpr double spread_k = 2.0;

struct Coldest {
  Temperature at;
  std::string why;
};

/// The coldest at which this charger, or something else, may charge this pack.
Coldest coldest_of(const Evidence& evidence, const PackCompany& company,
                   const part::Charger* charger) {
  Coldest coldest{evidence.build.needs.ambient.low(), "as cold as it gets around it"};
  if (charger != nullptr && charger->waits_below.nominal() > coldest.at) {
    coldest = {charger->waits_below.nominal(), charger->name + " waits below that"};
  }
  for (const part::ProtectionBoard* board : company.boards) {
    if (!board->has_temperature_sensor || board->charge_window.low() <= coldest.at) continue;
    coldest = {board->charge_window.low(), board->name + " lets no charge in below that"};
  }
  if (const auto over = exceeded(evidence, company.pack->name, "lowest temperature to charge at")) {
    const Temperature seen = Temperature::of_si(over->overload->worst.value_si);
    if (seen < coldest.at || coldest.at >= company.pack->cell.charge_window.low()) {
      coldest = {seen, over->words()};
    }
  }
  return coldest;
}

Finding finding_of(const part::Pack& pack, const std::string& charger, const Coldest& coldest) {
  const Temperature lowest = pack.cell.charge_window.low();
  Finding finding =
      measured_against<Temperature>(pack.name, coldest.at.si(), lowest.si(), Limits::Below);
  finding.margin.reset();
  const double left_k = coldest.at.si() - lowest.si();
  finding.answer = left_k < 0.0 ? Answer::Fails : left_k < spread_k ? Answer::Tight : Answer::Holds;
  finding.sentence =
      fmt::format("{} may be charged down to {}; its cells may be from {} on: {}.", pack.name,
                  quantity::show(coldest.at), quantity::show(lowest), coldest.why);
  if (finding.answer == Answer::Holds) return finding;
  finding.advice = fmt::format(
      "{}: waits_below = {} or more, with its sensor on the cells; or a board with a sensor whose "
      "charge_window begins there; or a warmer place.",
      charger, quantity::show(Temperature::of_si(lowest.si() + spread_k)));
  finding.brief = pack.name + " may be charged too cold";
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const PackCompany& company : pack_companies(evidence.build)) {
    for (const part::Charger* charger : company.chargers) {
      found.push_back(
          finding_of(*company.pack, charger->name, coldest_of(evidence, company, charger)));
    }
    const bool is_seen =
        exceeded(evidence, company.pack->name, "lowest temperature to charge at").has_value();
    if (company.chargers.empty() && is_seen) {
      found.push_back(
          finding_of(*company.pack, "what charges it", coldest_of(evidence, company, nullptr)));
    }
  }
  return found;
}

}  // namespace

const Rule& cold_charging() {
  static const Rule rule{
      .key = "cold_charging",
      .title = "Charging in the cold",
      .words =
          "No lithium cell is charged below freezing, and none below what its data sheet says: "
          "where it can get that cold, something must see it and wait.",
      .formula =
          "T_min of the surroundings, or below which charger or board waits, >= T_charge,min "
          "of the cell",
      .source =
          "cells' data sheets: 0 to 45 degC; IEC 62133-2: 10 to 45 degC where the maker says "
          "nothing, from memory",
      .caution =
          "A lithium cell that is charged below freezing plates metal, holds less from then "
          "on, and may burn months later.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

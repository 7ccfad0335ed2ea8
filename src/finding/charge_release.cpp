#include <cmath>

#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/pack_company.hpp"
#include "finding/rule_list.hpp"

namespace tideover::finding {

using quantity::Volt;

namespace {

/// Groups differ by this much near full. Common practice, no source.
constexpr double groups_differ_v = 0.025;
/// Float voltage of a lead-acid cell at 25 degC: a maker's manual of sealed batteries gives 2.30 V;
/// held higher for good it dries out.
constexpr double lead_float_v = 2.30;
/// Share of its highest charge voltage at which a lithium cell may be held for years: 4.10 of
/// 4.20 V, 3.45 of 3.65 V. Common practice, no source.
constexpr double lithium_float = 4.10 / 4.20;
constexpr double iron_float = 3.45 / 3.65;

/// What a cell of this row may be held at for good.
double float_v(const part::Cell& cell) {
  if (cell.chemistry == part::Chemistry::LeadAcid) {
    const double cells = std::max(1.0, std::round(cell.charge_to.si() / 2.4));
    return lead_float_v * cells;
  }
  return cell.charge_to.si() *
         (cell.chemistry == part::Chemistry::Lfp ? iron_float : lithium_float);
}

Finding held_finding(const part::Charger& charger, const part::Pack& pack) {
  const double held_v = charger.voltage.si() / pack.series;
  const double limit_v = float_v(pack.cell);
  const bool is_lead = pack.cell.chemistry == part::Chemistry::LeadAcid;
  Finding finding = measured_against<Volt>(charger.name, held_v, limit_v, Limits::Above);
  const bool is_kept = held_v <= limit_v * (1.0 + 1e-3);
  finding.answer = is_kept ? Answer::Holds : is_lead ? Answer::Fails : Answer::Tight;
  finding.sentence = fmt::format(
      "{} never ends and holds each cell of {} at {}; {} is what it may be held at for good.",
      charger.name, pack.name, shown<Volt>(held_v), shown<Volt>(limit_v));
  if (finding.answer == Answer::Holds) return finding;
  finding.advice =
      fmt::format("{}: voltage = {}, or a charger that ends (ends_at); {}.", charger.name,
                  rounded_down(Volt::of_si(limit_v * pack.series), Volt::of_si(0.01)),
                  is_lead ? "held higher it dries out" : "a tenth of the charge for years of life");
  return finding;
}

Finding release_finding(const part::Charger& charger, const part::Pack& pack,
                        const part::ProtectionBoard& board) {
  if (!board.over_voltage_release.given) {
    return not_known(charger.name, board.name + ".over_voltage_release",
                     fmt::format("Whether {} lets {} charge again by itself, once it has stopped "
                                 "it, is not known: its over_voltage_release is not stated.",
                                 board.name, charger.name));
  }
  const double held_v = charger.voltage.si() / pack.series;
  const double release_v = board.over_voltage_release.si();
  const bool may_trip =
      charger.voltage.high_si / pack.series + groups_differ_v > board.over_voltage.low_si;
  Finding finding = measured_against<Volt>(charger.name, held_v, release_v, Limits::Above);
  finding.answer = held_v <= release_v * (1.0 + 1e-9) ? Answer::Holds
                   : may_trip                         ? Answer::Fails
                                                      : Answer::Tight;
  finding.sentence = fmt::format(
      "Once {} has stopped charging it lets charge again below {} a group, and {} fills groups to "
      "{}.",
      board.name, shown<Volt>(release_v), charger.name, shown<Volt>(held_v));
  if (finding.answer == Answer::Holds) return finding;
  finding.sentence += may_trip
                          ? " With groups that differ a little it does stop, and the pack then "
                            "takes nothing until it has been drained somewhat."
                          : " Should one group ever stop it, the pack takes nothing until it has "
                            "been drained somewhat.";
  finding.advice = fmt::format(
      "{}: voltage = {} or less; or a board whose over_voltage_release is {} or more.",
      charger.name, rounded_down(Volt::of_si(release_v * pack.series), Volt::of_si(0.01)),
      rounded_up(Volt::of_si(held_v), Volt::of_si(0.01)));
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const PackCompany& company : pack_companies(evidence.build)) {
    for (const part::Charger* charger : company.chargers) {
      if (charger->ends_at.si() == 0.0) found.push_back(held_finding(*charger, *company.pack));
      for (const part::ProtectionBoard* board : company.boards) {
        found.push_back(release_finding(*charger, *company.pack, *board));
      }
    }
  }
  return found;
}

}  // namespace

const Rule& charge_release() {
  static const Rule rule{
      .key = "charge_release",
      .title = "Held full, and let charge again",
      .words =
          "A pack that hangs on its charger for years is held a little below full. And where "
          "the board has once stopped charging, it must let charge again by itself: a pack "
          "above the board's release voltage takes nothing until it has been drained.",
      .formula =
          "U_set / n <= U_float of the cell, if the charger never ends; U_set / n <= U_release "
          "of the board",
      .source =
          "lead-acid: a maker's manual of sealed batteries, 2.30 V a cell at 25 degC; lithium "
          "and release: common practice, no source",
      .caution = {},
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

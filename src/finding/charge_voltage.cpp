#include <algorithm>

#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/pack_company.hpp"
#include "finding/rule_list.hpp"
#include "quantity/show.hpp"

namespace tideover::finding {

using quantity::Volt;
using namespace quantity::literals;

namespace {

/// A charger on 4.2 V may stand 50 mV higher: usual of cells' data sheets; 4.25 V is the upper
/// limit charging voltage of IEC 62133-2, from memory. Other chemistries in proportion.
constexpr double spread_allowed = 0.05 / 4.2;
/// Groups differ by this much near full, so that a board must act that much above the charger.
/// Common practice, no source.
constexpr double groups_differ_v = 0.025;

struct Charging {
  const PackCompany& company;
  const part::Charger& charger;

  [[nodiscard]] double per_cell(double voltage_v) const { return voltage_v / company.pack->series; }
  [[nodiscard]] double upwards() const { return charger.voltage.high_si / charger.voltage.si(); }
  /// The highest setting at which cells and board are content, to 10 mV.
  [[nodiscard]] std::string setting() const {
    double cell_v = company.pack->cell.charge_to.si();
    for (const part::ProtectionBoard* board : company.boards) {
      if (!board->over_voltage.given) continue;
      cell_v = std::min(cell_v, board->over_voltage.low_si - groups_differ_v);
    }
    return fmt::format(
        "{}: voltage = {} or less.", charger.name,
        rounded_down(Volt::of_si(cell_v * company.pack->series / upwards()), 0.01_V));
  }
};

Finding against_cells(const Charging& one) {
  const double allowed_v = one.company.pack->cell.charge_to.si();
  const double set_v = one.per_cell(one.charger.voltage.si());
  const double highest_v = one.per_cell(one.charger.voltage.high_si);
  const bool is_set_high = set_v > allowed_v * (1.0 + 1e-9);
  const double limit_v = is_set_high ? allowed_v : allowed_v * (1.0 + spread_allowed);
  const double reached_v = is_set_high ? set_v : highest_v;
  Finding finding = measured_against<Volt>(one.charger.name, reached_v, limit_v, Limits::Above);
  finding.answer = finding.answer == Answer::Fails        ? Answer::Fails
                   : highest_v > allowed_v * (1.0 + 1e-9) ? Answer::Tight
                                                          : Answer::Holds;
  finding.sentence = fmt::format(
      "{} charges each cell of {} to {}, {} at the upper end of its tolerance; {} is the most it "
      "is made for, and {} with the charger's spread.",
      one.charger.name, one.company.pack->name, shown<Volt>(set_v), shown<Volt>(highest_v),
      shown<Volt>(allowed_v), shown<Volt>(allowed_v * (1.0 + spread_allowed)));
  if (finding.answer != Answer::Holds) finding.advice = one.setting();
  finding.brief = one.charger.name + " is set too high";
  return finding;
}

Finding against_board(const Charging& one, const part::ProtectionBoard& board) {
  if (!board.over_voltage.given) {
    return not_known(one.charger.name, board.name + ".over_voltage",
                     fmt::format("Whether {} stays below what {} stops charging at is not known: "
                                 "its over_voltage is not stated.",
                                 one.charger.name, board.name));
  }
  const double highest_v = one.per_cell(one.charger.voltage.high_si);
  Finding finding =
      measured_against<Volt>(one.charger.name, highest_v, board.over_voltage.low_si, Limits::Above);
  const bool is_near = highest_v > board.over_voltage.low_si - groups_differ_v + 1e-9;
  if (finding.answer != Answer::Fails) finding.answer = is_near ? Answer::Tight : Answer::Holds;
  finding.sentence = fmt::format(
      "{} takes a cell up to {} and {} stops charging from {} on, both with their tolerance.",
      one.charger.name, shown<Volt>(highest_v), board.name, shown<Volt>(board.over_voltage.low_si));
  if (finding.answer != Answer::Holds) finding.advice = one.setting();
  finding.brief = one.charger.name + " is set too high";
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const PackCompany& company : pack_companies(evidence.build)) {
    for (const part::Charger* charger : company.chargers) {
      const Charging one{company, *charger};
      found.push_back(against_cells(one));
      for (const part::ProtectionBoard* board : company.boards) {
        found.push_back(against_board(one, *board));
      }
    }
  }
  return found;
}

}  // namespace

const Rule& charge_voltage() {
  static const Rule rule{
      .key = "charge_voltage",
      .title = "Charge voltage of a cell",
      .words =
          "Set the charger to no more than the cells' highest charge voltage, and so that even "
          "at the upper end of its tolerance the protection board does not act: the board is "
          "there for the day on which the charger fails.",
      .formula =
          "U_set / n <= U_cell, U_set (1 + tolerance) / n <= U_cell + 50 mV in 4.2 V, "
          "U_set (1 + tolerance) / n <= U_board (1 - tolerance) - 25 mV",
      .source =
          "IEC 62133-2: upper limit charging voltage 4.25 V a cell, from memory; the distance "
          "to the board: common practice, no source",
      .caution =
          "An overcharged lithium cell burns. Measure the charger's voltage before the pack "
          "is connected.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

#include <algorithm>

#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/pack_company.hpp"
#include "finding/rule_list.hpp"

namespace tideover::finding {

using quantity::Volt;

namespace {

/// A board acts this much above the highest charge voltage of its cells, and not more than the
/// second: 4.275 V for cells of 4.2 V, 3.75 to 3.85 V for those of 3.65 V. Common practice, no
/// source.
constexpr double usual_above_v = 0.1;
constexpr double most_above_v = 0.2;

Finding against_full(const part::ProtectionBoard& board, const part::Pack& pack) {
  const double acts_v = board.over_voltage.high_si;
  const double full_v = pack.cell.charge_to.si();
  Finding finding =
      measured_against<Volt>(board.name, acts_v, full_v + most_above_v, Limits::Above);
  finding.margin.reset();
  const bool is_late = board.over_voltage.si() > full_v + usual_above_v + 1e-9;
  finding.answer = acts_v > full_v + most_above_v + 1e-9 ? Answer::Fails
                   : is_late                             ? Answer::Tight
                                                         : Answer::Holds;
  finding.sentence = fmt::format(
      "{} stops charging at {} a group at the latest; cells of {} are charged to {}, and {} is the "
      "most at which a board may still wait.",
      board.name, shown<Volt>(acts_v), pack.name, shown<Volt>(full_v),
      shown<Volt>(full_v + most_above_v));
  if (finding.answer == Answer::Holds) return finding;
  finding.advice = fmt::format("{}: one made for these cells, over_voltage = {} or less.",
                               board.name, shown<Volt>(full_v + usual_above_v));
  finding.brief = board.name + " stops charging too late for its cells";
  return finding;
}

Finding against_empty(const part::ProtectionBoard& board, const part::Pack& pack) {
  const double acts_v = board.under_voltage.low_si;
  const double empty_v = pack.cell.discharge_to.si();
  Finding finding = measured_against<Volt>(board.name, acts_v, empty_v, Limits::Below);
  finding.margin.reset();
  finding.answer = acts_v >= empty_v - 1e-9                     ? Answer::Holds
                   : board.under_voltage.si() >= empty_v - 1e-9 ? Answer::Tight
                                                                : Answer::Fails;
  finding.sentence =
      fmt::format("{} cuts off at {} a group at the latest; cells of {} may be emptied to {}.",
                  board.name, shown<Volt>(acts_v), pack.name, shown<Volt>(empty_v));
  if (finding.answer == Answer::Holds) return finding;
  const double downwards_v = board.under_voltage.si() - acts_v;
  finding.advice =
      fmt::format("{}: one made for these cells, under_voltage = {} or more.", board.name,
                  rounded_up(Volt::of_si(empty_v + downwards_v), Volt::of_si(0.01)));
  finding.brief = board.name + " cuts off too late for its cells";
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const PackCompany& company : pack_companies(evidence.build)) {
    for (const part::ProtectionBoard* board : company.boards) {
      // What is not stated the rules of charging and of the end ask for.
      if (board->over_voltage.given) found.push_back(against_full(*board, *company.pack));
      if (board->under_voltage.given) found.push_back(against_empty(*board, *company.pack));
    }
  }
  return found;
}

}  // namespace

const Rule& board_limits() {
  static const Rule rule{
      .key = "board_limits",
      .title = "A protection board made for its cells",
      .words =
          "A board is made for one chemistry: it stops charging a little above the cells' highest "
          "charge voltage and cuts off before they are emptier than they may be. One for 4.2 V "
          "cells guards iron phosphate against nothing.",
      .formula =
          "U_over <= U_cell + 0.1 V, U_over (1 + tolerance) <= U_cell + 0.2 V; U_under (1 - "
          "tolerance) "
          ">= U_least of the cell",
      .source =
          "the cell's data sheet; 0.1 V and 0.2 V: common practice, no source (a maker's example "
          "of a protector: 4.275 V, second hand)",
      .caution =
          "A lithium cell that was overcharged or emptied too far may burn when it is charged "
          "again: it goes to recycling.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

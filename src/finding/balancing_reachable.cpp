#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/pack_company.hpp"
#include "finding/rule_list.hpp"

namespace tideover::finding {

using quantity::Volt;

namespace {

Finding without_balancing(const part::ProtectionBoard& board, const part::Pack& pack) {
  return {.part = board.name,
          .answer = Answer::Classed,
          .sentence = fmt::format(
              "{} does not balance: the {} groups of {} stay as well matched as they were built, "
              "and the weakest one ends both charge and discharge. Match the cells, and measure "
              "every group once a year.",
              board.name, pack.series, pack.name)};
}

Finding with_balancing(const part::ProtectionBoard& board, const part::Charger& charger,
                       const part::Pack& pack) {
  if (!board.balance_start.given) {
    return not_known(board.name, board.name + ".balance_start",
                     fmt::format("Whether {} ever balances is not known: its balance_start is not "
                                 "stated.",
                                 board.name));
  }
  const double lowest_v = charger.voltage.low_si / pack.series;
  const double highest_v = charger.voltage.high_si / pack.series;
  const double start_v = board.balance_start.si();
  Finding finding = measured_against<Volt>(board.name, lowest_v, start_v, Limits::Below);
  finding.answer = lowest_v >= start_v    ? Answer::Holds
                   : highest_v >= start_v ? Answer::Tight
                                          : Answer::Fails;
  finding.sentence = fmt::format(
      "{} balances from {} a group on, and {} fills groups to {} at the lower and {} at the upper "
      "end of its tolerance.",
      board.name, shown<Volt>(start_v), charger.name, shown<Volt>(lowest_v),
      shown<Volt>(highest_v));
  if (finding.answer == Answer::Holds) return finding;
  const double downwards = charger.voltage.low_si / charger.voltage.si();
  finding.advice = fmt::format(
      "{}: voltage = {} or more, as far as the cells allow it; or a board whose balance_start is "
      "{} or less.",
      charger.name, rounded_up(Volt::of_si(start_v * pack.series / downwards), Volt::of_si(0.01)),
      rounded_down(Volt::of_si(lowest_v), Volt::of_si(0.01)));
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const PackCompany& company : pack_companies(evidence.build)) {
    if (company.pack->series < 2) continue;
    for (const part::ProtectionBoard* board : company.boards) {
      if (board->balances == part::Balances::Never) {
        found.push_back(without_balancing(*board, *company.pack));
        continue;
      }
      for (const part::Charger* charger : company.chargers) {
        found.push_back(with_balancing(*board, *charger, *company.pack));
      }
    }
  }
  return found;
}

}  // namespace

const Rule& balancing_reachable() {
  static const Rule rule{
      .key = "balancing_reachable",
      .title = "Balancing",
      .words =
          "A board bleeds high groups only above its threshold: a pack that is charged to less "
          "never balances, however good the board.",
      .formula = "U_set (1 - tolerance) / n >= U_balance",
      .source = "common practice, no source",
      .caution = {},
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

#include <algorithm>

#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/pack_demand.hpp"
#include "finding/rule_list.hpp"

namespace tideover::finding {

using quantity::Ampere;

namespace {

struct Asked {
  Ampere current;
  std::string why;
};

Finding trip_finding(const part::ProtectionBoard& board, const Asked& asked) {
  if (!board.discharge_over_current.given) {
    return not_known(
        board.name, board.name + ".discharge_over_current",
        fmt::format("Whether {} carries {} is not known: its discharge_over_current is "
                    "not stated.",
                    board.name, quantity::show(asked.current)));
  }
  const double limit_a = board.discharge_over_current.low_si;
  Finding finding =
      measured_against<Ampere>(board.name, asked.current.si(), limit_a, Limits::Above);
  finding.sentence = fmt::format(
      "{} cuts the pack off from {} on, at the lower end of its tolerance, and carries up to {}: "
      "{}.",
      board.name, quantity::show(Ampere::of_si(limit_a)), quantity::show(asked.current), asked.why);
  if (finding.answer == Answer::Holds) return finding;
  const double downwards = limit_a / board.discharge_over_current.si();
  finding.advice = fmt::format(
      "{}: discharge_over_current = {} or more, or less behind it.", board.name,
      rounded_up(Ampere::of_si(1.001 * asked.current.si() / ((1.0 - tight_share) * downwards)),
                 Ampere::of_si(0.1)));
  return finding;
}

Finding rating_finding(const part::ProtectionBoard& board, const Asked& asked) {
  if (!board.rated.given) {
    return not_known(board.name, board.name + ".rated",
                     fmt::format("Whether {} stands {} for good is not known: its rated current is "
                                 "not stated.",
                                 board.name, quantity::show(asked.current)));
  }
  Finding finding =
      measured_against<Ampere>(board.name, asked.current.si(), board.rated.si(), Limits::Above);
  finding.sentence =
      fmt::format("{} carries up to {} of the {} it stands for good: {}.", board.name,
                  quantity::show(asked.current), quantity::show(board.rated.nominal()), asked.why);
  if (finding.answer == Answer::Holds) return finding;
  finding.advice =
      fmt::format("{}: rated = {} or more, or less behind it.", board.name,
                  rounded_up(Ampere::of_si(1.001 * asked.current.si() / (1.0 - tight_share)),
                             Ampere::of_si(0.1)));
  finding.brief = board.name + " carries more than it stands";
  return finding;
}

Asked asked_of(const Evidence& evidence, const PackCompany& company,
               const part::ProtectionBoard& board) {
  const Greatest most = pack_demand(evidence, company, board.name, "continuous discharge current");
  return {Ampere::of_si(most.value_si), most.why};
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const PackCompany& company : pack_companies(evidence.build)) {
    for (const part::ProtectionBoard* board : company.boards) {
      const Asked asked = asked_of(evidence, company, *board);
      found.push_back(trip_finding(*board, asked));
      found.push_back(rating_finding(*board, asked));
    }
  }
  return found;
}

}  // namespace

const Rule& board_current() {
  static const Rule rule{
      .key = "board_current",
      .title = "Current through the protection board",
      .words =
          "A converter takes the more current the lower the pack: judge the board's "
          "over-current limit and its rating at the end of the discharge, with all devices at "
          "their most and the limit at the lower end of its tolerance.",
      .formula =
          "sum of P / (efficiency U_cut-off) <= I_over-current (1 - tolerance), and <= "
          "I_rated; tight above nine tenths",
      .source = "power balance; the tenth: common practice, no source",
      .caution = {},
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

#include <algorithm>

#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/demand.hpp"
#include "finding/rule_list.hpp"
#include "part/converter/converter.hpp"

namespace tideover::finding {

using quantity::Volt;

namespace {

/// A cell near its end rises by this much within minutes of rest, beside what its resistance gives
/// back at once. Lithium, from memory.
constexpr double recovers_v = 0.15;

/// Charge left in a cell at rest at that voltage.
double charge_left(const part::Cell& cell, double cell_v) {
  for (std::size_t k = 1; k < cell.rest.size(); ++k) {
    const auto& below = cell.rest[k - 1];
    const auto& above = cell.rest[k];
    if (cell_v > above.voltage.si()) continue;
    const double share =
        (cell_v - below.voltage.si()) / std::max(1e-9, above.voltage.si() - below.voltage.si());
    return below.soc.si() + std::clamp(share, 0.0, 1.0) * (above.soc.si() - below.soc.si());
  }
  return 1.0;
}

Finding finding_of(const part::Converter& board, const PackCompany& company) {
  const part::Pack& pack = *company.pack;
  const CutOff cut_off = cut_off_of(company);
  const auto unstated = std::ranges::find_if(
      company.boards, [](const auto* one) { return !one->under_voltage.given; });
  if (unstated != company.boards.end()) {
    return not_known(board.name, (*unstated)->name + ".under_voltage",
                     fmt::format("Which acts first at the end, {} or {}, is not known: the "
                                 "under_voltage of {} is not stated.",
                                 (*unstated)->name, board.name, (*unstated)->name));
  }
  const part::BoardLimits limits = board.limits();
  Finding finding =
      measured_against<Volt>(board.name, limits.stops_v, cut_off.lowest.si(), Limits::Above);
  const double hysteresis_v = limits.starts_v - limits.stops_v;
  const bool flutters = hysteresis_v < recovers_v * pack.series;
  const bool is_first = limits.stops_v > cut_off.highest.si();
  finding.answer = limits.stops_v <= cut_off.lowest.si() ? Answer::Holds
                   : is_first && flutters                ? Answer::Fails
                                                         : Answer::Tight;
  finding.sentence =
      fmt::format("{} stops below {} at its input, {} cuts the pack off at {}: ", board.name,
                  shown<Volt>(limits.stops_v), cut_off.by,
                  cut_off.lowest == cut_off.highest
                      ? quantity::show(cut_off.lowest, 4)
                      : quantity::show_range(cut_off.lowest.si(), cut_off.highest.si(),
                                             quantity::measure_of<Volt>(), 4));
  if (finding.answer == Answer::Holds) {
    finding.sentence += "the cut-off acts first, once, and all of the charge is used.";
    return finding;
  }
  finding.sentence +=
      is_first ? fmt::format("it stops first, with some {:.0f} % of the charge unused.",
                             100.0 * charge_left(pack.cell, limits.stops_v / pack.series))
               : std::string("which acts first is left to chance.");
  if (is_first && flutters) {
    finding.sentence += fmt::format(
        " The pack recovers by more than the {} between stopping and starting, so that it stops "
        "and starts over and over.",
        shown<Volt>(hysteresis_v, 3));
  }
  finding.advice = fmt::format(
      "{}: lockout = {} or less; or lockout_release = {} or more.", board.name,
      rounded_down(cut_off.lowest, Volt::of_si(0.1)),
      rounded_up(Volt::of_si(limits.stops_v + recovers_v * pack.series), Volt::of_si(0.1)));
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Rails rails(evidence.build);
  std::vector<Finding> found;
  for (const PackCompany& company : pack_companies(evidence.build)) {
    for (const part::Converter* board : parts_of<part::Converter>(evidence.build)) {
      if (!rails.feeds({company.pack->name, "plus"}, {board->name, "in_plus"})) continue;
      found.push_back(finding_of(*board, company));
    }
  }
  return found;
}

}  // namespace

const Rule& cut_off_order() {
  static const Rule rule{
      .key = "cut_off_order",
      .title = "Which acts first at the end: board or converter",
      .words =
          "The end is clean when the protection board cuts first and stays off. A converter "
          "that locks out before it leaves charge unused, and if the pack recovers past the "
          "converter's start voltage it stops and starts over and over.",
      .formula =
          "U_lockout <= n U_under-voltage (1 - tolerance); else U_start - U_lockout > n 0.15 "
          "V",
      .source = "common practice, no source; recovery of a rested cell from memory",
      .caution = {},
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/demand.hpp"
#include "finding/feed.hpp"
#include "finding/rule_list.hpp"
#include "finding/wiring.hpp"
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

/// "3 %", or words where it rounds to nothing.
std::string unused(double share) {
  return share < 0.01 ? "next to none" : fmt::format("some {:.0f} %", 100.0 * share);
}

/// A converter and its diodes: what it does at its input it does at that much more at the
/// pack.
struct Behind {
  const part::Converter& board;
  Volt diodes;

  [[nodiscard]] Volt stops() const { return Volt::of_si(board.limits().stops_v) + diodes; }
  [[nodiscard]] double hysteresis_v() const {
    return board.limits().starts_v - board.limits().stops_v;
  }
  [[nodiscard]] bool flutters(const part::Pack& pack) const {
    return hysteresis_v() < recovers_v * pack.series;
  }
  /// "up24 stops below 12 V at its input (12.4 V before its diode)".
  [[nodiscard]] std::string words() const {
    std::string text = fmt::format("{} stops below {} at its input", board.name,
                                   shown<Volt>(board.limits().stops_v));
    if (diodes.si() > 0.0) text += fmt::format(" ({} before its diode)", shown<Volt>(stops().si()));
    return text;
  }
  [[nodiscard]] std::string flutter_words() const {
    return fmt::format(
        " The pack recovers by more than the {} between stopping and starting, so that it stops "
        "and starts over and over.",
        shown<Volt>(hysteresis_v(), 3));
  }
  [[nodiscard]] std::string release_words(const part::Pack& pack) const {
    return fmt::format("lockout_release = {} or more",
                       rounded_up(Volt::of_si(board.limits().stops_v + recovers_v * pack.series),
                                  Volt::of_si(0.1)));
  }
};

/// Nothing but the converter's lockout keeps a pack without a board from being drained.
Finding without_board(const Behind& behind, const part::Pack& pack, Volt empty) {
  const std::string& name = behind.board.name;
  Finding finding = measured_against<Volt>(name, behind.stops().si(), empty.si(), Limits::Below);
  const bool flutters = behind.flutters(pack);
  const bool is_kept = behind.stops() >= empty;
  finding.answer = !is_kept ? Answer::Fails : flutters ? Answer::Tight : Answer::Holds;
  finding.sentence =
      fmt::format("{} has no board, so that {} alone spares it: {}, and {} is the least for {}.",
                  pack.name, name, behind.words(), quantity::show(empty, 4), pack.name);
  if (is_kept && flutters) finding.sentence += behind.flutter_words();
  if (!is_kept) {
    finding.advice = fmt::format("{}: lockout = {} or more, or a board that cuts the pack off.",
                                 name, rounded_up(empty - behind.diodes, Volt::of_si(0.1)));
  } else if (flutters) {
    finding.advice = fmt::format("{}: {}.", name, behind.release_words(pack));
  }
  return finding;
}

std::optional<Finding> unstated(const part::Converter& board, const PackCompany& company) {
  for (const part::ProtectionBoard* one : company.boards) {
    if (one->under_voltage.given) continue;
    return not_known(board.name, one->name + ".under_voltage",
                     fmt::format("Which acts first at the end, {} or {}, is not known: the "
                                 "under_voltage of {} is not stated.",
                                 one->name, board.name, one->name));
  }
  return std::nullopt;
}

Finding finding_of(const Behind& behind, const PackCompany& company) {
  const part::Converter& board = behind.board;
  const part::Pack& pack = *company.pack;
  const CutOff cut_off = cut_off_of(company);
  if (auto unknown = unstated(board, company)) return *std::move(unknown);
  if (company.boards.empty()) return without_board(behind, pack, cut_off.highest);
  const Volt stops = behind.stops();
  Finding finding =
      measured_against<Volt>(board.name, stops.si(), cut_off.lowest.si(), Limits::Above);
  const bool flutters = behind.flutters(pack);
  const bool is_first = stops > cut_off.highest;
  finding.answer = stops <= cut_off.lowest ? Answer::Holds
                   : is_first && flutters  ? Answer::Fails
                                           : Answer::Tight;
  finding.sentence =
      fmt::format("{}, {} cuts the pack off at {}: ", behind.words(), cut_off.by,
                  cut_off.lowest == cut_off.highest
                      ? quantity::show(cut_off.lowest, 4)
                      : quantity::show_range(cut_off.lowest.si(), cut_off.highest.si(),
                                             quantity::measure_of<Volt>(), 4));
  if (finding.answer == Answer::Holds) {
    finding.sentence += "the cut-off acts first, once, and all of the charge is used.";
    return finding;
  }
  finding.sentence += is_first
                          ? fmt::format("it stops first, with {} of the charge unused.",
                                        unused(charge_left(pack.cell, stops.si() / pack.series)))
                          : std::string("which acts first is left to chance.");
  if (is_first && flutters) finding.sentence += behind.flutter_words();
  finding.advice = fmt::format("{}: lockout = {} or less; or {}.", board.name,
                               rounded_down(cut_off.lowest - behind.diodes, Volt::of_si(0.1)),
                               behind.release_words(pack));
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Rails rails(evidence.build);
  const Feeding& feeding = feeding_of(evidence);
  std::vector<Finding> found;
  for (const PackCompany& company : pack_companies(evidence.build)) {
    for (const part::Converter* board : parts_of<part::Converter>(evidence.build)) {
      if (!rails.feeds({company.pack->name, "plus"}, {board->name, "in_plus"})) continue;
      const Volt diodes = feeding.diodes_between(company.pack->name, {board->name, "in_plus"});
      found.push_back(finding_of({*board, diodes}, company));
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
          "converter's start voltage it stops and starts over and over. A pack without a board has "
          "only the converter's lockout to spare it.",
      .formula =
          "U_lockout + U_diode <= n U_under-voltage (1 - tolerance); else U_start - U_lockout > n "
          "0.15 V; without a board U_lockout + U_diode >= n U_least of the cell",
      .source = "common practice, no source; recovery of a rested cell from memory",
      .caution = {},
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

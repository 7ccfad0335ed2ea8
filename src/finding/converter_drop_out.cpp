#include <algorithm>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/demand.hpp"
#include "finding/feed.hpp"
#include "finding/rule_list.hpp"
#include "finding/wiring.hpp"
#include "part/charger/charger.hpp"
#include "part/converter/converter.hpp"

namespace tideover::finding {

using quantity::Ampere;
using quantity::Volt;

namespace {

/// The most a board can hold at that input and current.
Volt reachable(const part::ConverterBoard& board, Volt input, Ampere current) {
  double low = 0.0;
  double high = board.set_point().voltage.si();
  if (board.lowest_input(Volt::of_si(high), current) <= input) return Volt::of_si(high);
  for (int k = 0; k < 50; ++k) {
    const double middle = 0.5 * (low + high);
    (board.lowest_input(Volt::of_si(middle), current) <= input ? low : high) = middle;
  }
  return Volt::of_si(low);
}

/// The lowest voltage that something fed by the board still takes, with what diodes on the way
/// keep; its set voltage if nothing is.
Volt needed_of(const build::Build& build, const Rails& rails, const Feeding& feeding,
               const part::ConverterBoard& board) {
  Volt needed;
  for (const part::Load* load : parts_of<part::Load>(build)) {
    const build::TerminalName plus{load->name, "plus"};
    if (!rails.feeds({board.name, "out_plus"}, plus)) continue;
    needed = std::max(needed, load->accepts.low() + feeding.diodes_between(board.name, plus));
  }
  return needed.si() > 0.0 ? needed : board.set_point().voltage;
}

struct Asked {
  const part::ConverterBoard& board;
  Volt out;         ///< at the upper end of its tolerance
  Ampere current;   ///< that it gives then
  Volt fed;         ///< the lowest that feeds it
  std::string why;  ///< and when
  Volt needed;      ///< at its output
};

Finding finding_of(const Asked& asked) {
  const Volt wants = asked.board.lowest_input(asked.out, asked.current);
  Finding finding =
      measured_against<Volt>(asked.board.name, asked.fed.si(), wants.si(), Limits::Below);
  const Volt gives = reachable(asked.board, asked.fed, asked.current);
  finding.answer = asked.fed >= wants      ? Answer::Holds
                   : gives >= asked.needed ? Answer::Tight
                                           : Answer::Fails;
  finding.sentence =
      fmt::format("{} needs {} at its input to hold {} at {}, and gets down to {}: {}.",
                  asked.board.name, quantity::show(wants, 4), quantity::show(asked.out, 4),
                  quantity::show(asked.current), quantity::show(asked.fed, 4), asked.why);
  if (finding.answer == Answer::Holds) return finding;
  finding.sentence +=
      fmt::format(" Its output falls to {}{}.", quantity::show(gives, 4),
                  finding.answer == Answer::Tight ? ", which what it feeds still accepts" : "");
  const Volt set = asked.board.set_point().voltage;
  const double upwards = asked.out.si() / set.si();
  const Volt lower = Volt::of_si(gives.si() / upwards);
  const std::string& name = asked.board.name;
  const bool is_charger = dynamic_cast<const part::Charger*>(&asked.board) != nullptr;
  finding.advice =
      is_charger || lower >= asked.needed
          ? fmt::format("{}: {} = {} or less, or a board that steps up and down.", name,
                        is_charger ? "voltage" : "output", rounded_down(lower, Volt::of_si(0.01)))
          : fmt::format(
                "{}: a board that steps up and down, or more groups in series, cut off "
                "higher.",
                name);
  return finding;
}

std::string behind(Volt diodes) { return diodes.si() > 0.0 ? ", behind a diode" : ""; }

/// A charger may fall short while it gives its full current, and still fill the pack.
Asked of_charger(const part::Charger& charger, const Supply& source, Volt diodes) {
  return {charger,
          charger.voltage.high(),
          charger.full_below.nominal(),
          source.at_rest - diodes,
          source.part + " at its lowest" + behind(diodes),
          charger.voltage.nominal()};
}

Asked of_converter(const build::Build& build, const Rails& rails, const Feeding& feeding,
                   const part::Converter& board, const Supply& source) {
  const Volt diodes = feeding.diodes_between(source.part, {board.name, "in_plus"});
  return {board,
          board.output.high(),
          std::min(peak_output(build, rails, board), board.set_point().current_limit),
          source.lowest - diodes,
          source.why_lowest + behind(diodes),
          needed_of(build, rails, feeding, board)};
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Rails rails(evidence.build);
  const Feeding& feeding = feeding_of(evidence);
  std::vector<Finding> found;
  for (const part::ConverterBoard* board : parts_of<part::ConverterBoard>(evidence.build)) {
    for (const Supply& source : supplies_of(evidence.build, rails, {board->name, "in_plus"})) {
      if (const auto* const charger = dynamic_cast<const part::Charger*>(board)) {
        const Volt diodes = feeding.diodes_between(source.part, {board->name, "in_plus"});
        found.push_back(finding_of(of_charger(*charger, source, diodes)));
      } else if (const auto* const other = dynamic_cast<const part::Converter*>(board)) {
        found.push_back(finding_of(of_converter(evidence.build, rails, feeding, *other, source)));
      }
    }
  }
  return found;
}

}  // namespace

const Rule& converter_drop_out() {
  static const Rule rule{
      .key = "converter_drop_out",
      .title = "Drop-out of a converter",
      .words =
          "At the lowest voltage that feeds it a converter still holds its output: a step-down "
          "one needs its output and its drop-out on top, a step-up one is limited by its "
          "duty. A charger must reach its voltage on its adapter's lowest.",
      .formula =
          "U_in,min: less its diodes; step-down: U_in,min >= (U_out + I R) / D_max; step-up: U_out "
          "<= U_in,min / (1 - "
          "D_max) less its drop",
      .source =
          "Erickson and Maksimovic, Fundamentals of Power Electronics, ch. 2 and 3, from "
          "memory",
      .caution = {},
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

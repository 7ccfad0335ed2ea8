#include <algorithm>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/demand.hpp"
#include "finding/rule_list.hpp"
#include "finding/witness.hpp"
#include "part/converter/converter.hpp"

namespace tideover::finding {

using quantity::Ampere;
using quantity::Volt;

namespace {

Finding output_finding(const Evidence& evidence, const Rails& rails, const part::Converter& board) {
  const Greatest most =
      or_exceeded({peak_output(evidence.build, rails, board).si(), "all it feeds at their most"},
                  evidence, board.name, "rated current", board.rated.si());
  const Ampere given = Ampere::of_si(most.value_si);
  Finding finding =
      measured_against<Ampere>(board.name, given.si(), board.rated.si(), Limits::Above);
  finding.sentence =
      fmt::format("{} gives up to {} of its rated {}: {}.", board.name, quantity::show(given),
                  quantity::show(board.rated.nominal()), most.why);
  if (finding.answer == Answer::Holds) return finding;
  finding.advice = fmt::format(
      "{}: rated = {} or more, or less behind it.", board.name,
      rounded_up(Ampere::of_si(1.001 * given.si() / (1.0 - tight_share)), Ampere::of_si(0.1)));
  finding.brief = board.name + " is overloaded";
  return finding;
}

Finding input_finding(const Evidence& evidence, const Rails& rails, const part::Converter& board,
                      const Supply& source) {
  const Volt fed = std::max(source.lowest, Volt::of_si(board.limits().stops_v));
  const Ampere taken = input_current(board, fed, peak_output(evidence.build, rails, board));
  Finding finding =
      measured_against<Ampere>(board.name, taken.si(), board.input_limit.si(), Limits::Above);
  finding.sentence =
      fmt::format("{} takes {} at its lowest input of {} ({}), and its input lets in {}.",
                  board.name, quantity::show(taken), quantity::show(fed), source.why_lowest,
                  quantity::show(board.input_limit.nominal()));
  if (finding.answer == Answer::Holds) return finding;
  finding.advice = fmt::format(
      "{}: input_limit = {} or more, or less behind it.", board.name,
      rounded_up(Ampere::of_si(1.001 * taken.si() / (1.0 - tight_share)), Ampere::of_si(0.1)));
  finding.brief = board.name + " takes more than its input lets in";
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Rails rails(evidence.build);
  std::vector<Finding> found;
  for (const part::Converter* board : parts_of<part::Converter>(evidence.build)) {
    found.push_back(output_finding(evidence, rails, *board));
    const auto sources = supplies_of(evidence.build, rails, {board->name, "in_plus"});
    const auto lowest = std::ranges::min_element(sources, {}, &Supply::lowest);
    if (lowest != sources.end()) {
      found.push_back(input_finding(evidence, rails, *board, *lowest));
    }
  }
  return found;
}

}  // namespace

const Rule& converter_power() {
  static const Rule rule{
      .key = "converter_power",
      .title = "Power of a converter",
      .words =
          "A converter gives no more than its rating while all it feeds take their most, and "
          "takes no more than its input lets in at the end of the pack: the lower the pack, "
          "the more it takes for the same power.",
      .formula =
          "sum of peak I_out <= I_rated; I_idle + (U_out + losses) I_out / U_in,min <= "
          "I_in,limit; tight above nine tenths",
      .source = "power balance; the tenth: common practice, no source",
      .caution =
          "What seller's pages give for such boards holds with a fan and for minutes; count "
          "on half of it in a closed box, and measure its heat.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/demand.hpp"
#include "finding/rule_list.hpp"
#include "finding/witness.hpp"

namespace tideover::finding {

using quantity::Volt;

namespace {

/// `source`: the highest that feeds it, or null.
Finding finding_of(const Evidence& evidence, const part::ConverterBoard& board,
                   const Supply* source) {
  const Greatest by_sheet =
      source == nullptr ? Greatest{} : Greatest{source->highest.si(), source->why_highest};
  const auto [volts, why] = or_exceeded(by_sheet, evidence, board.name, "highest input voltage");
  Finding finding = measured_against<Volt>(board.name, volts, board.accepts.high_si, Limits::Above);
  finding.sentence = fmt::format("{} stands {} at its input and may get {}: {}.", board.name,
                                 quantity::show(board.accepts.high()), shown<Volt>(volts), why);
  if (finding.answer == Answer::Holds) return finding;
  finding.advice =
      fmt::format("{}: one that stands {} or more at its input.", board.name,
                  rounded_up(Volt::of_si(1.001 * volts / (1.0 - tight_share)), Volt::of_si(1.0)));
  finding.brief = board.name + " may get more than its input stands";
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Rails rails(evidence.build);
  std::vector<Finding> found;
  for (const part::ConverterBoard* board : parts_of<part::ConverterBoard>(evidence.build)) {
    const auto sources = supplies_of(evidence.build, rails, {board->name, "in_plus"});
    const Supply* highest = nullptr;
    for (const Supply& source : sources) {
      if (highest == nullptr || source.highest > highest->highest) highest = &source;
    }
    Finding finding = finding_of(evidence, *board, highest);
    if (finding.measured->value_si > 0.0) found.push_back(std::move(finding));
  }
  return found;
}

}  // namespace

const Rule& converter_input() {
  static const Rule rule{
      .key = "converter_input",
      .title = "Highest input of a converter",
      .words =
          "A converter's input stands the highest voltage that ever feeds it, with a tenth to "
          "spare for what rings when a plug goes in.",
      .formula = "U_source (1 + tolerance) <= U_in,max; tight above 0.9 U_in,max",
      .source = "its data sheet; the tenth: common practice, no source",
      .caution =
          "A small converter that is fed too much often fails as a short circuit from input "
          "to output.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

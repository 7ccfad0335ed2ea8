#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/rule_list.hpp"
#include "finding/witness.hpp"
#include "part/pack/pack.hpp"

namespace tideover::finding {

using quantity::Temperature;

namespace {

/// What a box and its surroundings are known to. Common practice, no source.
constexpr double spread_k = 5.0;

Finding finding_of(const part::Pack& pack, const Reached& reached, double limit_k, Limits worse,
                   const char* doing) {
  Finding finding = measured_against<Temperature>(pack.name, reached.value_si, limit_k, worse);
  finding.margin.reset();
  const bool is_high = worse == Limits::Above;
  const double left_k = is_high ? limit_k - reached.value_si : reached.value_si - limit_k;
  finding.answer = left_k < 0.0 ? Answer::Fails : left_k < spread_k ? Answer::Tight : Answer::Holds;
  finding.sentence = fmt::format(
      "Cells of {} come {} {} while {}, and may be {} then: {}.", pack.name,
      is_high ? "up to" : "down to", quantity::show(Temperature::of_si(reached.value_si)), doing,
      (is_high ? "up to " : "down to ") + quantity::show(Temperature::of_si(limit_k)),
      when_and_where(reached));
  if (finding.answer == Answer::Holds) return finding;
  finding.advice =
      fmt::format("{}: {} K {} at least: {}.", pack.name,
                  static_cast<int>(std::ceil(spread_k - left_k)), is_high ? "cooler" : "warmer",
                  is_high ? "more air past it, a cooler place, less current" : "a warmer place");
  finding.brief = "cells of " + pack.name + (is_high ? " get too hot" : " get too cold");
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const part::Pack* pack : parts_of<part::Pack>(evidence.build)) {
    const part::Cell& cell = pack->cell;
    const auto judge = [&](const char* channel, double limit_k, Limits worse, const char* doing) {
      const auto reached = extreme(evidence, pack->name, channel, worse);
      if (reached) found.push_back(finding_of(*pack, *reached, limit_k, worse, doing));
    };
    judge("cell temperature", cell.discharge_window.high().si(), Limits::Above, "in use");
    judge("cell temperature", cell.discharge_window.low().si(), Limits::Below, "in use");
    judge("cell temperature while charging", cell.charge_window.high().si(), Limits::Above,
          "charging");
  }
  return found;
}

}  // namespace

const Rule& cell_temperature() {
  static const Rule rule{
      .key = "cell_temperature",
      .title = "Temperature of the cells",
      .words =
          "Cells stay within what their data sheet allows, in the heat of summer in the closed "
          "box too; while they charge they may be less warm than while they give.",
      .formula = "T_min <= T of the cells <= T_max, discharging and charging; tight within 5 K",
      .source =
          "the cell's data sheet; usual ones: -20 to 60 degC discharging, 0 to 45 degC charging "
          "(read)",
      .caution = "Hot lithium cells age fast, and beyond their limits they burn.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

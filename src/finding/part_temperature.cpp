#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/rule_list.hpp"
#include "finding/witness.hpp"
#include "part/adapter/adapter.hpp"
#include "part/box/box.hpp"
#include "part/converter/board.hpp"
#include "part/protection_board/protection_board.hpp"
#include "part/resistor/resistor.hpp"

namespace tideover::finding {

using quantity::Temperature;

namespace {

/// From which the rise of a part is counted.
constexpr double usual_k = Temperature::zero_celsius_k + 25.0;

/// A channel and the temperature it must stay below.
struct Warm {
  std::string part;
  std::string_view channel;
  double limit_k = 0.0;
  std::string_view then;  ///< what comes of it
};

std::vector<Warm> warm_parts(const build::Build& build) {
  std::vector<Warm> all;
  for (const part::Adapter* adapter : parts_of<part::Adapter>(build)) {
    all.push_back({adapter->name, "body temperature", adapter->full_up_to.si(),
                   "it no longer gives its full rating"});
  }
  for (const part::ConverterBoard* board : parts_of<part::ConverterBoard>(build)) {
    all.push_back({board->name, "body temperature", board->shutdown_at.si(), "it shuts down"});
  }
  for (const part::ProtectionBoard* board : parts_of<part::ProtectionBoard>(build)) {
    all.push_back({board->name, "temperature", board->highest_temperature.si(),
                   "it is hotter than it may be"});
  }
  for (const part::Resistor* resistor : parts_of<part::Resistor>(build)) {
    all.push_back({resistor->name, "body temperature", resistor->hottest.si(),
                   "it is hotter than it may be"});
  }
  for (const part::Box* box : parts_of<part::Box>(build)) {
    all.push_back({box->name, "wall temperature", box->touch_limit.si(), "hands must not meet it"});
  }
  return all;
}

Finding finding_of(const Warm& warm, const Reached& reached) {
  Finding finding =
      measured_against<Temperature>(warm.part, reached.value_si, warm.limit_k, Limits::Above);
  finding.margin = (warm.limit_k - reached.value_si) / (warm.limit_k - usual_k);
  finding.answer = answer_of(*finding.margin);
  const Temperature hot = Temperature::of_si(reached.value_si);
  finding.sentence = fmt::format("{} comes to {}, {}; above {} {}.", warm.part, quantity::show(hot),
                                 when_and_where(reached),
                                 quantity::show(Temperature::of_si(warm.limit_k)), warm.then);
  if (finding.answer == Answer::Holds) return finding;
  const double too_hot_k = reached.value_si - (warm.limit_k - 0.1 * (warm.limit_k - usual_k));
  finding.advice = fmt::format(
      "{}: {} K cooler at least: more air past it, a part that loses less or is bigger, "
      "or less to carry.",
      warm.part, static_cast<int>(std::ceil(too_hot_k)));
  finding.brief = warm.part + " gets too hot";
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const Warm& warm : warm_parts(evidence.build)) {
    const auto reached = extreme(evidence, warm.part, warm.channel, Limits::Above);
    if (reached) found.push_back(finding_of(warm, *reached));
  }
  return found;
}

}  // namespace

const Rule& part_temperature() {
  static const Rule rule{
      .key = "part_temperature",
      .title = "Temperature of a part",
      .words =
          "No part gets as hot as it may be at the most, in the hottest surroundings of the "
          "sheet and after hours of its highest load.",
      .formula = "T <= T_max; margin: (T_max - T) / (T_max - 25 degC)",
      .source = "the parts' data sheets; what hands may meet: IEC 62368-1, TS1, from memory",
      .caution =
          "Feel for heat with the back of the hand, or better with a thermometer; hot boards "
          "burn fingers and brown their boxes.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

#include <algorithm>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/coil_feed.hpp"
#include "finding/rule_list.hpp"
#include "finding/wiring.hpp"

namespace tideover::finding {

using quantity::Ampere;
using quantity::Temperature;
using quantity::Volt;

namespace {

/// The source that is meant to pull it in: the one that still gives most at its least.
const Source* puller_of(const Feeding& feeding, const part::Relay& relay) {
  const Source* best = nullptr;
  for (const Source* source : coil_sources(feeding, relay)) {
    if (best == nullptr ||
        lowest_at_coil(feeding, relay, *source) > lowest_at_coil(feeding, relay, *best)) {
      best = source;
    }
  }
  return best;
}

/// As the sheet has it, held for days in the warmest air, or as warm as it got in a run.
Temperature hottest_coil(const Evidence& evidence, const part::Relay& relay, Volt rail) {
  Temperature hottest = settled_coil(relay, rail, evidence.build.needs.ambient.high());
  for (const Case& one : evidence.cases) {
    const int channel = one.record->find(relay.name, "coil temperature");
    if (channel < 0) continue;
    hottest = std::max(
        hottest,
        Temperature::of_si(one.record->highest[static_cast<std::size_t>(channel)].value_si));
  }
  return hottest;
}

/// Pick-up current at the upper end of its tolerance.
Ampere surely_pulls(const part::Relay& relay) {
  const bool is_given = relay.pick_up.si() > 0.0;
  const double upwards = is_given ? relay.pick_up.high_si / relay.pick_up.si() : 1.0;
  return upwards * relay.pick_up_current();
}

/// Cold pick-up voltage with which it would just pull, with a tenth in hand.
Volt pick_up_for(const part::Relay& relay, Volt rail, Temperature coil, Temperature air) {
  Ampere low;
  Ampere high = rail / relay.resistance_at(coil);
  for (int k = 0; k < 60; ++k) {
    const Ampere middle = 0.5 * (low + high);
    (rail_for(relay, middle, coil, air) < (1.0 - tight_share) * rail ? low : high) = middle;
  }
  return low * relay.coil_resistance.nominal();
}

Finding of_relay(const Evidence& evidence, const Feeding& feeding, const part::Relay& relay,
                 const Source& source) {
  const Temperature air = evidence.build.needs.ambient.high();
  const Volt rail = lowest_at_coil(feeding, relay, source);
  const Temperature coil = hottest_coil(evidence, relay, highest_at_coil(feeding, relay, source));
  const Volt needed = rail_for(relay, surely_pulls(relay), coil, air);
  Finding finding = measured_against<Volt>(relay.name, needed.si(), rail.si(), Limits::Above);
  finding.sentence = fmt::format(
      "{} with its coil at {} needs {} to pull again ({} cold, at the coil); {} gives {} at its "
      "least.",
      relay.name, quantity::show(coil), shown<Volt>(needed.si()),
      shown<Volt>(relay.pick_up_cold().si()), source.part->name, shown<Volt>(rail.si()));
  if (finding.answer != Answer::Holds) {
    const Volt pick_up =
        pick_up_for(relay, rail, coil, air) / (surely_pulls(relay) / relay.pick_up_current()).si();
    finding.advice = fmt::format("{}: pick_up = {} or less{}.", relay.name,
                                 rounded_down(pick_up, Volt::of_si(0.1)),
                                 relay.series_diodes > 0 ? ", or fewer series_diodes" : "");
  }
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Feeding& feeding = feeding_of(evidence);
  std::vector<Finding> found;
  for (const part::Relay* relay : parts_of<part::Relay>(evidence.build)) {
    const Source* const source = puller_of(feeding, *relay);
    if (source != nullptr) found.push_back(of_relay(evidence, feeding, *relay, *source));
  }
  return found;
}

}  // namespace

const Rule& relay_pick_up() {
  static const Rule rule{
      .key = "relay_pick_up",
      .title = "A hot relay picks up again",
      .words =
          "A coil that has been held for days is hot and has more ohms: the current that pulls the "
          "armature stays the same, so that it takes more volts. It must pull again at the rail's "
          "least voltage right after a short outage.",
      .formula = "U_pull (234.5 + T) / (234.5 + T0) + U_series <= U_rail,least",
      .source =
          "copper at 234.5: IEC 61810-1, from memory; 13.0 V at 25 degC is 18.0 V at 125 degC: a "
          "relay maker's note (read)",
      .caution = "",
      .is_harm = false,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

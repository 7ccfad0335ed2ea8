#include <algorithm>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/coil_feed.hpp"
#include "finding/rule_list.hpp"
#include "finding/wiring.hpp"
#include "part/adapter/adapter.hpp"
#include "part/load/load.hpp"

namespace tideover::finding {

using quantity::Temperature;
using quantity::Volt;

namespace {

/// Rail voltage at which the armature surely lets go: the coil at its coldest, the lower end of
/// the tolerance.
Volt lets_go_at(const part::Relay& relay, Temperature air) {
  const double downwards =
      relay.release.si() > 0.0 ? relay.release.low_si / relay.release.si() : 1.0;
  return rail_for(relay, downwards * relay.release_current(), air, air);
}

/// Loads that lose their feed from the source when the relay is taken away.
std::vector<const part::Load*> loads_behind(const build::Build& build, const Feeding& feeding,
                                            const part::Relay& relay, const Source& source) {
  std::vector<const part::Load*> all;
  for (const part::Load* load : parts_of<part::Load>(build)) {
    const build::TerminalName plus{load->name, "plus"};
    if (feeding.feed(source, plus) && !feeding.feed(source, plus, &relay)) all.push_back(load);
  }
  return all;
}

/// Whether it still pulls on that source at its least, with its coil hot.
bool pulls(const part::Relay& relay, const Feeding& feeding, const Source& source,
           Temperature hot) {
  const Temperature coil = settled_coil(relay, highest_at_coil(feeding, relay, source), hot);
  return rail_for(relay, relay.pick_up_current(), coil, hot) <=
         lowest_at_coil(feeding, relay, source);
}

/// "series_diodes = 5 or more", where the relay still pulls with so many.
std::string diodes_for(part::Relay relay, const Feeding& feeding, const Source& source, Volt wanted,
                       const quantity::Span<Temperature>& ambient) {
  constexpr int most = 40;
  while (relay.series_diodes < most && lets_go_at(relay, ambient.low()) < wanted) {
    ++relay.series_diodes;
  }
  if (lets_go_at(relay, ambient.low()) < wanted) return "";
  if (!pulls(relay, feeding, source, ambient.high())) return "";
  return fmt::format("series_diodes = {} or more", relay.series_diodes);
}

/// "release = 6.2 V or more", where a relay may have that.
std::string release_for(part::Relay relay, Volt wanted, Temperature air) {
  const Volt step = Volt::of_si(0.1);
  const double spread = relay.release.si() > 0.0 ? relay.release.low_si / relay.release.si() : 1.0;
  Volt release = relay.release_cold();
  while (release < 0.8 * relay.pick_up_cold()) {
    release += step;
    relay.release = quantity::Value<Volt>(spread * release, release, release);
    if (lets_go_at(relay, air) < wanted) continue;
    return fmt::format("release = {} or more", rounded_up(release, step));
  }
  return "";
}

Finding of_load(const Feeding& feeding, const part::Relay& relay, const part::Load& load,
                const Source& source, const quantity::Span<Temperature>& ambient) {
  const Temperature air = ambient.low();
  const Volt lets_go = lets_go_at(relay, air);
  Finding finding =
      measured_against<Volt>(relay.name, lets_go.si(), load.accepts.low_si, Limits::Below);
  finding.sentence = fmt::format(
      "When the mains goes, {} has surely let go when its rail has sagged to {}; {} works down to "
      "{} on the same rail.",
      relay.name, shown<Volt>(lets_go.si()), load.name, shown<Volt>(load.accepts.low_si));
  if (finding.answer == Answer::Holds) return finding;
  const Volt wanted = Volt::of_si((1.0 + tight_share) * load.accepts.low_si);
  const std::string diodes = diodes_for(relay, feeding, source, wanted, ambient);
  const std::string release = release_for(relay, wanted, air);
  finding.advice =
      diodes.empty() && release.empty()
          ? fmt::format(
                "a diode from each source to {} in place of {}, or a relay that something "
                "works which watches the mains.",
                load.name, relay.name)
          : fmt::format("{}: {}{}{}.", relay.name, diodes,
                        diodes.empty() || release.empty() ? "" : ", or ", release);
  return finding;
}

/// A coil meant to follow the mains, held by what is there without it.
Finding held_by(const Feeding& feeding, const part::Relay& relay, const Source& source,
                Temperature air) {
  const Volt holds = highest_at_coil(feeding, relay, source);
  const Volt lets_go = lets_go_at(relay, air);
  Finding finding = measured_against<Volt>(relay.name, holds.si(), lets_go.si(), Limits::Above);
  finding.sentence = fmt::format(
      "Without mains {} still puts {} on the coil of {}, which lets go below {}.",
      source.part->name, shown<Volt>(holds.si()), relay.name, shown<Volt>(lets_go.si()));
  if (finding.answer != Answer::Holds) {
    finding.advice = fmt::format(
        "a diode in the way from {} to {}.coil_plus, so that only the adapter feeds it.",
        source.part->name, relay.name);
  }
  return finding;
}

bool is_adapter(const Source& source) {
  return dynamic_cast<const part::Adapter*>(source.part) != nullptr;
}

/// What a converter or charger puts out it gets from somewhere: from the mains alone it holds
/// nothing without it.
bool is_there_without_mains(const Feeding& feeding, const Source& source) {
  if (!source.limit) return true;
  for (const Source& pack : feeding.sources()) {
    const build::TerminalName in{source.part->name, "in_plus"};
    // Not backwards through itself.
    if (!pack.limit && feeding.feed(pack, in, source.part)) return true;
  }
  return false;
}

std::vector<Finding> of_relay(const build::Build& build, const Feeding& feeding,
                              const part::Relay& relay) {
  std::vector<Finding> found;
  const std::vector<const Source*> all = coil_sources(feeding, relay);
  const auto adapter =
      std::ranges::find_if(all, [](const Source* one) { return is_adapter(*one); });
  if (adapter == all.end()) return found;
  const Temperature air = build.needs.ambient.low();
  for (const part::Load* load : loads_behind(build, feeding, relay, **adapter)) {
    found.push_back(of_load(feeding, relay, *load, **adapter, build.needs.ambient));
  }
  for (const Source* source : all) {
    const bool is_whole = !source->plus.terminal.starts_with("tap");
    if (is_adapter(*source) || !is_whole || !is_there_without_mains(feeding, *source)) continue;
    found.push_back(held_by(feeding, relay, *source, air));
  }
  return found;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Feeding& feeding = feeding_of(evidence);
  std::vector<Finding> found;
  for (const part::Relay* relay : parts_of<part::Relay>(evidence.build)) {
    for (Finding& finding : of_relay(evidence.build, feeding, *relay)) {
      found.push_back(std::move(finding));
    }
  }
  return found;
}

}  // namespace

const Rule& relay_release() {
  static const Rule rule{
      .key = "relay_release",
      .title = "A relay lets go in time",
      .words =
          "A relay that follows the mains lets go at a fraction of its coil voltage, long after "
          "the device behind it has given up on the sagging rail. Diodes or a zener before the "
          "coil raise the rail voltage at which it lets go; and nothing behind the pack may feed "
          "the coil, or it never does.",
      .formula = "U_release + U_series >= U_least of the load; U_back < U_release + U_series",
      .source =
          "release at 5 % or more of the rated voltage: IEC 61810-1, from memory; the rest common "
          "practice, no source",
      .caution = "",
      .is_harm = false,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

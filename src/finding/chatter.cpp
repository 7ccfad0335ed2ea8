#include <algorithm>

#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/instant.hpp"
#include "finding/rule_list.hpp"
#include "finding/witness.hpp"
#include "part/adapter/adapter.hpp"
#include "part/charger/charger.hpp"
#include "part/converter/converter.hpp"
#include "part/load/load.hpp"
#include "part/protection_board/protection_board.hpp"
#include "part/relay/relay.hpp"

namespace tideover::finding {

using quantity::Second;
using quantity::Volt;

namespace {

/// Regulators stutter for a moment while everything collapses behind a pack that has been cut off,
/// and while everything starts again: nobody is served then.
bool is_harmless(const run::Chatter& chatter, const run::Record& record) {
  constexpr double moment_s = 10.0;
  if ((chatter.last - chatter.first).si() > moment_s) return false;
  return std::ranges::any_of(darks_of(record), [&](const Dark& dark) {
    return std::ranges::any_of(record.pack_cut_offs, [&](const run::Extreme& cut_off) {
      if (cut_off.at < dark.begins || cut_off.at > dark.ends) return false;
      const double after_cut_s = (chatter.first - cut_off.at).si();
      const double after_return_s = (chatter.first - dark.ends).si();
      return after_cut_s >= 0.0 &&
             (after_cut_s < moment_s || (after_return_s >= 0.0 && after_return_s < moment_s));
    });
  });
}

/// Which threshold of that kind of part to move.
std::string remedy(const build::Build& build, const std::string& name) {
  const part::Part* const part = build.find(name);
  if (const auto* const board = dynamic_cast<const part::ProtectionBoard*>(part)) {
    return fmt::format(
        "{}: under_voltage_release above {}, or under_voltage_released_by = \"charger\"; and a "
        "converter that locks out only below its cut-off.",
        name, quantity::show(board->under_voltage_release.nominal()));
  }
  if (dynamic_cast<const part::Charger*>(part) != nullptr) {
    return name + ": begins_again_below lower, or a current that its adapter can spare.";
  }
  if (const auto* const board = dynamic_cast<const part::Converter*>(part)) {
    return fmt::format(
        "{}: lockout_release above {}, further from where it stops ({}); or less resistance before "
        "it.",
        name, quantity::show(Volt::of_si(board->limits().starts_v)),
        quantity::show(Volt::of_si(board->limits().stops_v)));
  }
  if (const auto* const relay = dynamic_cast<const part::Relay*>(part)) {
    return fmt::format(
        "{}: one whose release lies further below its pick-up ({} and {} cold), or a stiffer rail.",
        name, quantity::show(relay->release_cold()), quantity::show(relay->pick_up_cold()));
  }
  if (dynamic_cast<const part::Adapter*>(part) != nullptr) {
    return name + ": it is overloaded and tries again and again: less on it, or a stronger one.";
  }
  // A device has no thresholds to set: what it wants is a voltage that stays.
  if (const auto* const load = dynamic_cast<const part::Load*>(part)) {
    return fmt::format(
        "{}: what feeds it must stay above {} while it draws: a higher voltage, less drop in its "
        "leads, a converter that still holds its output.",
        name, quantity::show(load->accepts.low()));
  }
  return name + ": more distance between the values at which it acts and lets go again.";
}

Finding finding_of(const build::Build& build, const run::Chatter& chatter, const Case& in) {
  const quantity::Measure time = quantity::measure_of<Second>();
  Finding finding{
      .part = chatter.part, .answer = Answer::Tight, .measured = Figure{chatter.period.si(), time}};
  finding.sentence =
      fmt::format("{} {}, {} times, every {}, from {} on.", chatter.part, chatter.words,
                  chatter.times, quantity::show(chatter.period), when_and_where(chatter.first, in));
  finding.advice = remedy(build, chatter.part);
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const Case& one : evidence.cases) {
    for (const run::Chatter& chatter : one.record->chatters) {
      const bool is_told = std::ranges::find(found, chatter.part, &Finding::part) != found.end();
      if (is_told || is_harmless(chatter, *one.record)) continue;
      found.push_back(finding_of(evidence.build, chatter, one));
    }
  }
  return found;
}

}  // namespace

const Rule& chatter() {
  static const Rule rule{
      .key = "chatter",
      .title = "A part that switches to and fro",
      .words =
          "Nothing switches to and fro: a board that cuts, recovers, reconnects and cuts again "
          "wants more distance between the values at which it acts and lets go.",
      .formula = "the same event of one part, six times or more in a stretch",
      .source = "common practice, no source",
      .caution = {},
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding

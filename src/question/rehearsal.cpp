#include "question/rehearsal.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"
#include "build/parts_of.hpp"
#include "part/load/load.hpp"
#include "part/pack/pack.hpp"

namespace tideover::question {

using build::Build;
using build::Change;
using build::Stretch;
using build::Timeline;
using part::Load;
using quantity::Second;

namespace {

/// Before the change where nothing has to be brought about first; where it has, adapters start and
/// rails settle within `start_s` and the loads' boot times. Assumed.
constexpr double calm_s = 2.0;
constexpr double start_s = 30.0;
/// A pack whose charge has moved by less than this is as settled.
constexpr double same_charge = 0.005;

Stretch for_time(std::vector<Change> changes, double lasts_s) {
  Stretch stretch{.changes = std::move(changes)};
  stretch.lasts = quantity::Value<Second>(Second::of_si(lasts_s));
  return stretch;
}

const Stretch& stretch_number(const Timeline& timeline, std::size_t k) {
  return timeline.stretches[k % timeline.stretches.size()];
}

std::vector<Load*> loads_of(Build& build) {
  std::vector<Load*> loads;
  for (auto& part : build.parts) {
    if (auto* const load = dynamic_cast<Load*>(part.get())) loads.push_back(load);
  }
  return loads;
}

/// The profile that a load is in after `changes`.
std::string profile_after(const Load& load, const std::vector<Change>& changes) {
  std::string name = load.profile.front().name;
  for (const Change& change : changes) {
    const bool is_meant = change.part.empty() || change.part == load.name;
    const bool has_it = std::ranges::any_of(
        load.profile, [&](const part::ProfileStretch& one) { return one.name == change.profile; });
    if (change.what == Change::What::Profile && is_meant && has_it) name = change.profile;
  }
  return name;
}

void keep_one_draw(Load& load, const std::vector<Change>& changes, Draws draws) {
  if (load.profile.empty()) return;
  const std::string name = profile_after(load, changes);
  std::optional<quantity::Value<quantity::Watt>> kept;
  for (const part::ProfileStretch& one : load.profile) {
    if (one.name != name) continue;
    const bool is_beyond = kept && (draws == Draws::Highest ? one.draws.si() > kept->si()
                                                            : one.draws.si() < kept->si());
    if (!kept || is_beyond) kept = one.draws;
  }
  TIDEOVER_EXPECT(kept.has_value(), "a profile has at least one stretch of its name");
  load.draws = *kept;
  load.draws.given = true;
  load.profile.clear();
}

/// What is left of changes that follow each other, where a later one undoes an earlier one, and a
/// settled start has all adapters on the mains.
std::vector<Change> net_of(const std::vector<Change>& changes) {
  std::vector<Change> net;
  for (const Change& change : changes) {
    std::erase_if(net, [&](const Change& earlier) {
      return earlier.what == change.what && (change.part.empty() || earlier.part == change.part);
    });
    net.push_back(change);
  }
  const auto is_away = [](const Change& change) {
    return change.what == Change::What::Mains && change.mains != Change::Mains::Present;
  };
  if (std::ranges::none_of(net, is_away)) {
    std::erase_if(net, [](const Change& change) { return change.what == Change::What::Mains; });
  }
  return net;
}

/// Whether sources are as they are after settling.
bool is_as_settled(const std::vector<Change>& net) {
  return std::ranges::none_of(net, [](const Change& change) {
    return change.what == Change::What::Mains || change.what == Change::What::Switch;
  });
}

std::vector<Change> changes_before(const Timeline& timeline, std::size_t stretch) {
  std::vector<Change> all;
  for (std::size_t k = 0; k < stretch; ++k) {
    const auto& changes = stretch_number(timeline, k).changes;
    all.insert(all.end(), changes.begin(), changes.end());
  }
  return net_of(all);
}

void charge_packs(Build& build, const run::Record& record, Second at) {
  const auto found = std::ranges::lower_bound(record.instants, at);
  if (found == record.instants.end()) return;
  const auto k = static_cast<std::size_t>(found - record.instants.begin());
  for (const part::Pack* pack : build::parts_of<part::Pack>(build)) {
    const int channel = record.find(pack->name, "charge");
    if (channel < 0) continue;
    const auto& samples = record.samples_si[static_cast<std::size_t>(channel)];
    if (std::abs(samples[k] - samples.front()) < same_charge) continue;
    build.start.charge[pack->name] =
        quantity::Value<quantity::Ratio>(quantity::Ratio::of_si(std::clamp(samples[k], 0.0, 1.0)));
  }
}

}  // namespace

std::string_view in_words(Draws draws) {
  return draws == Draws::Highest ? "every load at its highest draw"
                                 : "every load at its lowest draw";
}

bool has_bursts(const Build& build) {
  return std::ranges::any_of(build.parts, [](const auto& part) {
    const auto* const load = dynamic_cast<const Load*>(part.get());
    return load != nullptr && load->profile.size() > 1;
  });
}

Rehearsal rehearsal_of(const Build& build, const Timeline& timeline, const run::Record& record,
                       const SourceChange& change, Draws draws) {
  TIDEOVER_EXPECT(change.stretch.has_value(), "a planned change");
  const std::size_t first = *change.stretch;
  std::vector<Change> before = changes_before(timeline, first);
  Rehearsal made{.build = build.copy(), .timeline = {"rehearsal", {}, 1}};
  made.build.start.is_settled = true;
  charge_packs(made.build, record, change.at);
  double boots_s = 0.0;
  for (Load* const load : loads_of(made.build)) {
    boots_s = std::max(boots_s, load->boot.si());
    keep_one_draw(*load, before, draws);
  }
  const double lasts_s = is_as_settled(before) ? calm_s : start_s + boots_s;
  made.timeline.stretches.push_back(for_time(std::move(before), lasts_s));
  for (std::size_t k = first; k < record.stretches.size(); ++k) {
    const run::StretchSpan& span = record.stretches[k];
    if (span.begins > change.until) break;
    const bool goes_on = span.ends <= change.until;
    const double longest_s = (change.until - span.begins).si() + watched_s;
    made.timeline.stretches.push_back(for_time(
        stretch_number(timeline, k).changes, goes_on ? (span.ends - span.begins).si() : longest_s));
  }
  return made;
}

std::optional<SourceChange> rehearsed(const run::Record& record, const Build& build) {
  if (record.stretches.size() < 2 || record.instants.empty()) return std::nullopt;
  const std::vector<SourceChange> all = source_changes_of(record, build);
  for (const SourceChange& one : all) {
    if (one.stretch == 1U) return one;
  }
  return std::nullopt;
}

}  // namespace tideover::question

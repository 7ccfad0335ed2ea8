#include "question/fault_run.hpp"

#include <algorithm>
#include <limits>

#include "part/fuse/fuse.hpp"
#include "part/load/load.hpp"
#include "part/pack/pack.hpp"
#include "question/trial.hpp"

namespace tideover::question {

using build::Build;
using build::Change;
using build::Stretch;
using build::Timeline;
using build::Until;
using quantity::Second;
using run::Overload;
using run::Record;

namespace {

/// The mains is back for as long as a slow charger takes for a large pack; then it is not full.
constexpr double longest_recharge_s = 36.0 * 3600.0;
constexpr Second longer_recharge = Second::of_si(2.0 * 3600.0);
/// A rating that the sound build exceeds too is no harm of the fault, unless it goes this much
/// further.
constexpr double further_share = 1.05;
/// A recharge shorter than this says nothing of a load that has yet to boot.
constexpr double boots_within_s = 600.0;
/// What ends within this of the fault, or of an event of the sound run, belongs to it.
constexpr double same_event_s = 1.0;

Stretch stretch(std::vector<Change> changes, double lasts_s, Until until) {
  Stretch made{.changes = std::move(changes)};
  made.lasts = quantity::Value<Second>(Second::of_si(lasts_s));
  made.until = until;
  return made;
}

Change mains(Change::Mains to) { return {.what = Change::What::Mains, .mains = to}; }

/// The fault arises so long after a run begins, or when half of the outage is over.
constexpr double sound_s = 60.0;

double fault_at_s(double outage_s, Onset onset) {
  return onset == Onset::Start ? sound_s : before_outage.si() + 0.5 * outage_s;
}

/// The mains is back until the pack is full, or for `recharge_s` if that is given.
Timeline three_phases(double outage_s, Onset onset, std::optional<double> recharge_s) {
  const Change fault{.what = Change::What::Defects, .part = {}};
  const Change dark = mains(Change::Mains::Absent);
  const double half_s = 0.5 * outage_s;
  Timeline timeline{.name = "one fault", .stretches = {}, .repeats = 1};
  std::vector<Stretch>& all = timeline.stretches;
  all.push_back(stretch({mains(Change::Mains::Present)}, sound_s, Until::Time));
  if (onset == Onset::Start) {
    all.push_back(stretch({fault}, before_outage.si() - sound_s, Until::Time));
    all.push_back(stretch({dark}, longest_outage.si(), Until::AllLoadsLost));
  } else {
    all.push_back(stretch({}, before_outage.si() - sound_s, Until::Time));
    all.push_back(stretch({dark}, half_s, Until::Time));
    all.push_back(stretch({fault}, longest_outage.si() - half_s, Until::AllLoadsLost));
  }
  all.push_back(stretch({mains(Change::Mains::Present)}, recharge_s.value_or(longest_recharge_s),
                        recharge_s ? Until::Time : Until::PackFull));
  return timeline;
}

run::Circumstances circumstances_at(quantity::Temperature ambient) {
  return {.ambient = ambient, .has_meters = true};
}

const Outage* first_of(const std::vector<Outage>& outages) {
  return outages.empty() ? nullptr : &outages.front();
}

const run::Service* service_of(const Record& record, const std::string& load) {
  const auto at = std::ranges::find(record.services, load, &run::Service::load);
  return at == record.services.end() ? nullptr : &*at;
}

bool was_serving(const Record& record, const std::string& load, double instant_s) {
  const run::Service* const service = service_of(record, load);
  return service != nullptr && serves_at(*service, Second::of_si(instant_s));
}

const Serving* serving_of(const Outage* outage, const std::string& load) {
  if (outage == nullptr) return nullptr;
  const auto at = std::ranges::find(outage->servings, load, &Serving::load);
  return at == outage->servings.end() ? nullptr : &*at;
}

/// Lowest and highest of the load's input until `until_s`.
void look_at_voltage(const Record& record, double until_s, LoadEffect& effect) {
  const int channel = record.find(effect.load, "input voltage");
  if (channel < 0 || record.samples_si.empty()) return;
  const auto& values = record.samples_si[static_cast<std::size_t>(channel)];
  double lowest = std::numeric_limits<double>::infinity();
  double highest = -lowest;
  for (std::size_t k = 0; k < values.size() && record.instants[k].si() < until_s; ++k) {
    lowest = std::min(lowest, values[k]);
    highest = std::max(highest, values[k]);
  }
  if (lowest > highest) return;
  effect.lowest = quantity::Volt::of_si(lowest);
  effect.highest = quantity::Volt::of_si(highest);
}

std::optional<Second> out_after_return(const std::string& load, const Record& record,
                                       const Outage* outage, const Record& sound) {
  if (outage == nullptr || record.outcome.ended != hybrid::Ended::AtTime) return std::nullopt;
  const run::Service* const now = service_of(record, load);
  const run::Service* const before = service_of(sound, load);
  const bool is_out = now != nullptr && !now->serves_at_end;
  if (!is_out || before == nullptr || !before->serves_at_end) return std::nullopt;
  const Second back = outage->ends;
  if ((record.instants.back() - back).si() < boots_within_s) return std::nullopt;
  const bool was_there = !now->served.empty() && now->served.back().to > back;
  return was_there ? now->served.back().to - back : Second{};
}

/// How long after the mains is back each pack holds `full_share` of `settled`'s charge.
std::optional<Second> full_after(const Build& build, const Record& record, const Outage& outage,
                                 const Record& settled) {
  double last_s = 0.0;
  for (const auto& part : build.parts) {
    if (dynamic_cast<const part::Pack*>(part.get()) == nullptr) continue;
    const int here = record.find(part->name, "charge");
    const int there = settled.find(part->name, "charge");
    if (here < 0 || there < 0) continue;
    const double enough = full_share * settled.samples_si[static_cast<std::size_t>(there)].front();
    const auto& charge = record.samples_si[static_cast<std::size_t>(here)];
    std::size_t k = 0;
    while (k < charge.size() && (record.instants[k] < outage.ends || charge[k] < enough)) ++k;
    if (k == charge.size()) return std::nullopt;
    last_s = std::max(last_s, (record.instants[k] - outage.ends).si());
  }
  return Second::of_si(last_s);
}

/// Whether a stretch ended neither by what it waited for nor by its time.
bool is_cut_short(const Record& record, const Timeline& timeline) {
  for (std::size_t k = 0; k < std::min(record.stretches.size(), timeline.stretches.size()); ++k) {
    const run::StretchSpan& span = record.stretches[k];
    const double lasted_s = (span.ends - span.begins).si();
    const auto& lasts = timeline.stretches[k].lasts;
    if (!lasts) continue;
    const double meant_s = lasts->si();
    if (!span.ended_as_asked && lasted_s < meant_s - same_event_s) return true;
  }
  return false;
}

LoadEffect effect_on(const std::string& load, const Record& record, const Outage* outage,
                     const SoundRun& sound, Onset onset) {
  LoadEffect effect{.load = load};
  const Outage* const sound_outage = first_of(sound.outages);
  const Serving* const before = serving_of(sound_outage, load);
  const Serving* const now = serving_of(outage, load);
  if (before != nullptr) effect.sound_lost_after = before->lost_after;
  const double sound_loss_s = before_outage.si();
  const double loss_s = outage == nullptr ? sound_loss_s : outage->begins.si();
  const bool was_served = was_serving(sound.record, load, sound_loss_s - same_event_s);
  if (onset == Onset::Start) {
    const double then_s = std::min(loss_s - same_event_s, record.instants.back().si());
    effect.is_lost_with_mains = was_served && !was_serving(record, load, then_s);
  }
  effect.out_after_return = out_after_return(load, record, outage, sound.record);
  if (now != nullptr) {
    effect.lost_after = effect.is_lost_with_mains ? Second{} : now->lost_after;
    const std::size_t sound_restarts = before == nullptr ? 0 : before->interruptions.size();
    effect.restarts =
        static_cast<int>(now->interruptions.size()) - static_cast<int>(sound_restarts);
    effect.restarts = std::max(0, effect.restarts);
  }
  look_at_voltage(record, loss_s + effect.lost_after.value_or(sound.outage).si(), effect);
  for (const Overload& overload : record.overloads) {
    if (overload.part == load && overload.rating == "highest input voltage") {
      effect.above = overload.total;
    }
  }
  return effect;
}

bool is_new(const Overload& overload, const Record& sound) {
  const auto same = std::ranges::find_if(sound.overloads, [&](const Overload& one) {
    return one.part == overload.part && one.rating == overload.rating;
  });
  if (same == sound.overloads.end()) return true;
  const double size = std::abs(overload.worst.value_si);
  const double before = std::abs(same->worst.value_si);
  return overload.is_upper ? size > further_share * before : size * further_share < before;
}

/// How far beyond its limit, whichever way.
double beyond(const Overload& overload) {
  return std::abs(overload.worst.value_si - overload.limit_si);
}

std::vector<Harm> harms_of(const Record& record, const Record& sound) {
  std::vector<Harm> harms;
  for (const Overload& overload : record.overloads) {
    if (overload.longest <= overload.stands || !is_new(overload, sound)) continue;
    const run::ChannelInfo& channel = record.channels[overload.channel];
    harms.push_back({overload, channel.dimension, channel.is_temperature});
  }
  std::ranges::stable_sort(
      harms, [](const Harm& a, const Harm& b) { return beyond(a.overload) > beyond(b.overload); });
  return harms;
}

bool happens_in(const Record& sound, const run::Event& event) {
  return std::ranges::any_of(sound.events, [&](const run::Event& one) {
    return one.part == event.part && one.words == event.words;
  });
}

std::vector<Clearing> clearings_of(const Record& record, const Record& sound, double fault_s) {
  std::vector<Clearing> clearings;
  for (const run::Event& event : record.events) {
    const bool breaks = event.effect == network::Effect::Breaks;
    if (!breaks && event.effect != network::Effect::Stops) continue;
    if (happens_in(sound, event) || is_of_the_mains(event)) continue;
    const bool is_told = std::ranges::any_of(clearings, [&](const Clearing& one) {
      return one.part == event.part && one.words == event.words;
    });
    if (is_told) continue;
    const double after_s = std::max(0.0, event.at.si() - fault_s);
    clearings.push_back({event.part, event.words, breaks, Second::of_si(after_s)});
  }
  return clearings;
}

/// A sound build takes some hundred steps for a stretch; an adapter that tries again every second
/// would take a hundred thousand.
run::Settings settings_of_faults() {
  run::Settings settings;
  settings.patience = Second::of_si(longest_recharge_s);
  settings.most_steps_a_stretch = 3000;
  return settings;
}

}  // namespace

bool LoadEffect::is_lost_early() const {
  constexpr double early_share = 0.9;
  return lost_after &&
         (!sound_lost_after || lost_after->si() < early_share * sound_lost_after->si());
}

SoundRun sound_run(const Build& build, base::Progress& progress) {
  const quantity::Temperature ambient = circumstances_of(build).front().ambient;
  SoundRun sound{.record = run::run(build, three_phases(longest_outage.si(), Onset::Start, {}),
                                    circumstances_at(ambient), settings_of_faults(), progress),
                 .outages = {},
                 .outage = longest_outage,
                 .full_after = {},
                 .recharge = longer_recharge,
                 .ambient = ambient};
  sound.outages = outages_of(sound.record);
  if (const Outage* const outage = first_of(sound.outages)) {
    sound.outage = outage->length();
    sound.full_after = full_after(build, sound.record, *outage, sound.record);
    sound.recharge = 1.25 * sound.full_after.value_or(Second{}) + longer_recharge;
  }
  return sound;
}

FaultRun fault_run(const Build& build, const SoundRun& sound, Onset onset, part::FuseLaw fuses,
                   base::Progress& progress) {
  FaultRun found{.onset = onset, .fuses = fuses};
  const Timeline timeline = three_phases(sound.outage.si(), onset, sound.recharge.si());
  found.record =
      run::run(build, timeline, circumstances_at(sound.ambient), settings_of_faults(), progress);
  const Record& record = found.record;
  found.ended = record.outcome.ended;
  found.why = record.outcome.why;
  const std::vector<Outage> outages = outages_of(record);
  const Outage* const outage = first_of(outages);
  found.loss = outage == nullptr ? before_outage : outage->begins;
  found.outage_ends = outage == nullptr ? found.loss : outage->ends;
  found.is_cut_short = is_cut_short(record, timeline);
  for (const run::Service& service : sound.record.services) {
    found.loads.push_back(effect_on(service.load, record, outage, sound, onset));
  }
  found.harms = harms_of(record, sound.record);
  found.clearings = clearings_of(record, sound.record, fault_at_s(sound.outage.si(), onset));
  const bool was_followed = found.ended == hybrid::Ended::AtTime && !found.is_cut_short;
  if (outage != nullptr && was_followed) {
    found.full_after = full_after(build, record, *outage, sound.record);
    found.sound_full_after = sound.full_after;
  }
  return found;
}

}  // namespace tideover::question

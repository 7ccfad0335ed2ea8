#include "question/predict.hpp"

#include <algorithm>
#include <array>

#include "build/parts_of.hpp"
#include "part/pack/pack.hpp"
#include "part/switch/switch.hpp"
#include "question/calm.hpp"
#include "question/laboratory.hpp"
#include "question/thinning.hpp"

namespace tideover::question {

using build::Build;
using build::Change;
using build::Stretch;
using build::Timeline;
using build::Until;
using quantity::Second;
using quantity::Temperature;
using run::Circumstances;

namespace {

/// How long the long dark is watched: two years, more than anyone forgets a supply for. Assumed.
constexpr double watched_s = 2.0 * 365.25 * 86400.0;

Change mains(Change::Mains to) { return {.what = Change::What::Mains, .mains = to}; }

Stretch for_time(std::vector<Change> changes, double lasts_s) {
  Stretch stretch{.changes = std::move(changes)};
  stretch.lasts = quantity::Value<Second>(Second::of_si(lasts_s));
  return stretch;
}

/// Mains away for good.
Timeline long_dark() {
  Stretch outage{.changes = {mains(Change::Mains::Absent)}, .until = Until::PackCutOff};
  return {"long dark", {outage, for_time({}, watched_s)}, 1};
}

/// Charged, adapters pulled, every switch off.
Timeline in_store(const Build& build) {
  std::vector<Change> changes{mains(Change::Mains::Unplugged)};
  for (const part::Switch* hand : build::parts_of<part::Switch>(build)) {
    changes.push_back({.what = Change::What::Switch, .part = hand->name, .position = 0});
  }
  return {"in store", {for_time(std::move(changes), watched_s)}, 1};
}

bool has_switch(const Build& build) {
  return std::ranges::any_of(build::parts_of<part::Switch>(build), &part::Switch::has_off);
}

/// A supply in store must not feed its loads: then the switch does not take the pack off.
bool still_serves(const run::Record& record) {
  constexpr double moment_s = 60.0;
  return std::ranges::any_of(record.services, [](const run::Service& service) {
    return std::ranges::any_of(service.served, [](const run::Service::Interval& interval) {
      return interval.to.si() > moment_s;
    });
  });
}

/// What is carried out: every timeline under every circumstance, then the dark and the store.
struct Plan {
  std::vector<Experiment> experiments;
  std::size_t timelines = 0;
  bool has_dark = false;
  bool has_store = false;
};

Plan plan_of(const Build& build, const Build& calm) {
  /// The years in the dark are a few hundred steps beside the thousands of a stormy day.
  constexpr double little = 0.05;
  Plan plan;
  const auto circumstances = circumstances_of(build);
  for (const Timeline& timeline : timelines_of(build)) {
    ++plan.timelines;
    for (const Circumstances& under : circumstances) {
      const bool is_usual = &under == &circumstances.front();
      plan.experiments.push_back({&build, timeline, under, timeline.name + ", " + in_words(under),
                                  1.0, is_usual ? 0 : most_rows});
    }
  }
  plan.has_dark = build::first_of<part::Pack>(build) != nullptr;
  plan.has_store = plan.has_dark && has_switch(build);
  if (plan.has_dark) {
    plan.experiments.push_back(
        {&calm, long_dark(), circumstances.front(), "the long dark", little});
  }
  if (plan.has_store) {
    plan.experiments.push_back({&calm, in_store(calm), circumstances.front(), "in store", little});
  }
  return plan;
}

/// The timeline whose outage tells most, worn or not, leads; the first one that can judge the needs
/// where none tells more than another.
std::size_t leading(const std::vector<std::vector<Trial>>& by_timeline,
                    const std::vector<Timeline>& timelines, const build::Needs& needs) {
  const auto hardest = [&](std::size_t k) {
    const Outage* found = nullptr;
    for (const Trial& trial : by_timeline[k]) {
      const Outage* const outage = trial.judged_outage();
      if (outage == nullptr || outage->servings.empty()) continue;
      if (found == nullptr || tells_more(*outage, *found)) found = outage;
    }
    return found;
  };
  std::size_t lead = 0;
  while (lead < timelines.size() && !can_judge(timelines[lead], needs)) ++lead;
  if (lead == timelines.size()) lead = 0;
  const Outage* most = hardest(lead);
  for (std::size_t k = 0; k < by_timeline.size(); ++k) {
    const Outage* const outage = hardest(k);
    const bool is_loss = outage != nullptr && !outage->carried_whole;
    if (!is_loss || (most != nullptr && !tells_more(*outage, *most))) continue;
    most = outage;
    lead = k;
  }
  return lead;
}

/// The trials of every timeline, told apart by its name where there are several.
std::vector<std::vector<Trial>> trials_of(const Plan& plan, std::vector<run::Record>& records) {
  std::vector<std::vector<Trial>> by_timeline(plan.timelines);
  const std::size_t each = records.empty() ? 0 : 3;
  for (std::size_t k = 0; k < plan.timelines * each; ++k) {
    const Experiment& one = plan.experiments[k];
    Trial trial = trial_of(std::move(records[k]), one.circumstances);
    if (plan.timelines > 1) trial.words = one.doing;
    by_timeline[k / each].push_back(std::move(trial));
  }
  return by_timeline;
}

void keep_watch(const Build& calm, const Plan& plan, const std::vector<run::Record>& records,
                Prediction& found) {
  found.can_be_switched_off = plan.has_store;
  const std::size_t dark = 3 * plan.timelines;
  if (plan.has_dark) found.dark = keeping_of(calm, records[dark]);
  if (!plan.has_store) return;
  if (still_serves(records[dark + 1])) {
    found.can_be_switched_off = false;
  } else {
    found.storage = keeping_of(calm, records[dark + 1]);
  }
}

}  // namespace

std::vector<const Trial*> Prediction::trials() const {
  std::vector<const Trial*> all = judged();
  std::erase_if(all, [](const Trial* trial) { return !trial->was_tried(); });
  for (const Trial& other : others) all.push_back(&other);
  return all;
}

bool can_judge(const Timeline& timeline, const build::Needs& needs) {
  bool is_dark = false;
  bool long_enough = false;
  for (const Stretch& stretch : timeline.stretches) {
    for (const Change& change : stretch.changes) {
      if (change.what != Change::What::Mains || !change.part.empty()) continue;
      is_dark = change.mains == Change::Mains::Absent;
    }
    if (!is_dark) continue;
    // A stretch with both an event and a time may end before the event has come.
    const double lasts_s = stretch.lasts ? stretch.lasts->si() : 0.0;
    const bool waits = !stretch.lasts && stretch.until != Until::Time &&
                       stretch.until != Until::PackFull && stretch.until != Until::LoadsServed;
    if (waits || (needs.outlast.given && lasts_s >= needs.outlast.si())) long_enough = true;
  }
  return long_enough;
}

Prediction predict(const Build& build, const run::Settings& settings, base::Progress& progress) {
  const Build calm = without_bursts(build);
  const Plan plan = plan_of(build, calm);
  std::vector<run::Record> records = carry_out(plan.experiments, settings, progress);
  auto by_timeline = trials_of(plan, records);
  const std::size_t lead = leading(by_timeline, timelines_of(build), build.needs);
  Prediction found{.usual = std::move(by_timeline[lead][0]),
                   .worn = std::move(by_timeline[lead][1]),
                   .hot = std::move(by_timeline[lead][2])};
  for (std::size_t k = 0; k < by_timeline.size(); ++k) {
    if (k == lead) continue;
    for (Trial& trial : by_timeline[k]) {
      thin(trial.record);
      found.others.push_back(std::move(trial));
    }
  }
  keep_watch(calm, plan, records, found);
  const Temperature usual = found.usual.circumstances.ambient;
  found.standby = standby_of(build, found.usual.record);
  found.head_room = head_room_of(build, found.usual.record);
  found.leads = finding::lead_losses(build, found.usual.record, usual);
  found.ways = finding::way_losses(build, found.usual.record, usual);
  found.verdict = judge({build, found.usual, found.worn, found.hot, found.head_room, found.others});
  found.is_partial = progress.stop_asked();
  return found;
}

}  // namespace tideover::question

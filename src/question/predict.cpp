#include "question/predict.hpp"

#include <algorithm>

#include "part/load/load.hpp"
#include "part/pack/pack.hpp"
#include "part/switch/switch.hpp"
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

/// One run's part of the whole.
class ShareOfProgress final : public base::Progress {
 public:
  ShareOfProgress(base::Progress& whole, double from, double to)
      : whole_(whole), from_(from), to_(to) {}
  void report(double share, std::string_view doing) override {
    whole_.report(from_ + (to_ - from_) * std::clamp(share, 0.0, 1.0), doing);
  }
  [[nodiscard]] bool stop_asked() const override { return whole_.stop_asked(); }

 private:
  base::Progress& whole_;
  double from_;
  double to_;
};

/// Runs timelines one after another and tells how far it is.
class Laboratory {
 public:
  Laboratory(const Build& build, const run::Settings& settings, base::Progress& progress,
             std::size_t runs)
      : build_(build), settings_(settings), progress_(progress), runs_(runs) {}

  run::Record carry_out(const Build& build, const Timeline& timeline,
                        const Circumstances& circumstances, const std::string& doing) {
    const auto all = static_cast<double>(runs_);
    const auto done = static_cast<double>(done_++);
    progress_.report(done / all, doing);
    if (progress_.stop_asked()) {
      run::Record none;
      none.timeline = timeline.name;
      none.is_partial = true;
      return none;
    }
    ShareOfProgress share(progress_, done / all, (done + 1.0) / all);
    return run::run(build, timeline, circumstances, settings_, share);
  }
  Trial try_out(const Timeline& timeline, const Circumstances& circumstances) {
    return trial_of(carry_out(build_, timeline, circumstances, in_words(circumstances)),
                    circumstances);
  }

 private:
  const Build& build_;
  run::Settings settings_;
  base::Progress& progress_;
  std::size_t runs_;
  std::size_t done_ = 0;
};

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
  for (const auto& part : build.parts) {
    if (dynamic_cast<const part::Switch*>(part.get()) == nullptr) continue;
    changes.push_back({.what = Change::What::Switch, .part = part->name, .position = 0});
  }
  return {"in store", {for_time(std::move(changes), watched_s)}, 1};
}

/// For years in the dark the bursts of a load, which it no longer gets, are one mean draw.
Build without_bursts(const Build& build) {
  Build copy = build.copy();
  for (auto& part : copy.parts) {
    auto* const load = dynamic_cast<part::Load*>(part.get());
    if (load == nullptr || load->profile.empty()) continue;
    load->draws = quantity::Value<quantity::Watt>(load->mean_power(load->profile.front().name));
    load->draws.given = true;
    load->profile.clear();
  }
  return copy;
}

bool has_switch(const Build& build) {
  return std::ranges::any_of(build.parts, [](const auto& part) {
    const auto* const found = dynamic_cast<const part::Switch*>(part.get());
    return found != nullptr && found->has_off;
  });
}

bool has_pack(const Build& build) {
  return std::ranges::any_of(build.parts, [](const auto& part) {
    return dynamic_cast<const part::Pack*>(part.get()) != nullptr;
  });
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

Timeline judging_timeline(const Build& build) {
  for (const Timeline& timeline : build.timelines) {
    if (can_judge(timeline, build.needs)) return timeline;
  }
  return run::usual_timeline();
}

void keep_watch(const Build& build, const Circumstances& usual, Laboratory& laboratory,
                Prediction& found) {
  found.can_be_switched_off = has_switch(build);
  if (!has_pack(build)) return;
  const Build calm = without_bursts(build);
  found.dark = keeping_of(build, laboratory.carry_out(calm, long_dark(), usual, "the long dark"));
  if (!found.can_be_switched_off) return;
  const run::Record stored = laboratory.carry_out(calm, in_store(calm), usual, "in store");
  if (still_serves(stored)) {
    found.can_be_switched_off = false;
  } else {
    found.storage = keeping_of(build, stored);
  }
}

}  // namespace

std::vector<const Trial*> Prediction::trials() const {
  std::vector<const Trial*> all = judged();
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
  const Temperature cold = build.needs.ambient.low();
  const Temperature warm = build.needs.ambient.high();
  const Circumstances usual{.ambient = cold + 0.5 * (warm - cold)};
  const Timeline judging = judging_timeline(build);
  Laboratory laboratory(build, settings, progress, build.timelines.size() + 5);
  Prediction found{
      .usual = laboratory.try_out(judging, usual),
      .worn = laboratory.try_out(judging, {.ambient = cold, .cells_aged = true}),
      .hot = laboratory.try_out(judging, {.ambient = warm}),
  };
  // Of these two only their answers and the run of the energy are looked at.
  thin(found.worn.record);
  thin(found.hot.record);
  for (const Timeline& timeline : build.timelines) {
    if (timeline.name == judging.name) continue;
    found.others.push_back(laboratory.try_out(timeline, usual));
  }
  keep_watch(build, usual, laboratory, found);
  found.standby = standby_of(build, found.usual.record);
  found.head_room = head_room_of(build, found.usual.record);
  found.verdict = judge({build, found.usual, found.worn, found.hot, found.head_room});
  found.is_partial = progress.stop_asked();
  return found;
}

}  // namespace tideover::question

#include "question/glance.hpp"

#include "question/calm.hpp"
#include "question/laboratory.hpp"

namespace tideover::question {

namespace {

/// Long enough for everything to be served before the outage; the build begins settled.
constexpr double mains_before_s = 60.0;

build::Timeline outage_and_recharge() {
  build::Timeline timeline = run::usual_timeline();
  timeline.name = "quick look";
  timeline.stretches.front().lasts =
      quantity::Value<quantity::Second>(quantity::Second::of_si(mains_before_s));
  return timeline;
}

}  // namespace

Prediction glance(const build::Build& build, const run::Settings& settings,
                  base::Progress& progress) {
  const build::Build calm = without_bursts(build);
  const run::Circumstances usual = circumstances_of(build).front();
  run::Record record =
      what_was_begun(run::run(calm, outage_and_recharge(), usual, settings, progress));
  Prediction found{.usual = trial_of(std::move(record), usual)};
  found.is_quick = true;
  found.standby = standby_of(calm, found.usual.record);
  found.head_room = head_room_of(calm, found.usual.record);
  found.leads = finding::lead_losses(build, found.usual.record, usual.ambient);
  found.ways = finding::way_losses(build, found.usual.record, usual.ambient);
  found.verdict = judge({build, found.usual, found.worn, found.hot, found.head_room, {}});
  found.is_partial = progress.stop_asked();
  return found;
}

}  // namespace tideover::question

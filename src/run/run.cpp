#include "run/run.hpp"

#include <algorithm>
#include <cmath>

#include "hybrid/stepper.hpp"
#include "run/circuit.hpp"
#include "run/recorder.hpp"
#include "run/settle.hpp"
#include "run/stimuli.hpp"

namespace tideover::run {

using build::Build;
using build::Change;
using build::Stretch;
using build::Timeline;
using build::Until;
using quantity::Second;

namespace {

/// Share of all flows that the books may leave open: ten times what the usual tolerance leaves on a
/// day of the example.
constexpr double books_close_within = 1e-5;
/// A run that leaves them further open is repeated with a tenth of its tolerance, so many times.
constexpr int most_repeats = 3;

/// A run is given up after so many reactions with never a minute between two: a board that cuts
/// and comes back every second for an hour and a half. By then its period is known.
constexpr long most_reactions = 5000;

/// One run in the making.
class Runner {
 public:
  Runner(const Build& build, const Circumstances& circumstances, const Settings& settings,
         base::Progress& progress)
      : build_(build),
        settings_(settings),
        progress_(progress),
        circuit_(assemble(build, circumstances)),
        mains_(build) {}

  Record run(const Timeline& timeline);

 private:
  std::unique_ptr<hybrid::Integrator> make_integrator(std::vector<double> y);
  bool carry_out(const Stretch& stretch, hybrid::Integrator& integrator, Recorder& recorder);
  void apply(const Change& change, hybrid::Integrator& integrator, Recorder& recorder);
  void break_what_is_latent(double time_s, hybrid::Marks& marks);

  const Build& build_;
  const Settings& settings_;
  base::Progress& progress_;
  Circuit circuit_;
  MainsState mains_;
  hybrid::Outcome outcome_;
};

void Runner::break_what_is_latent(double time_s, hybrid::Marks& marks) {
  for (const DefectElement& element : circuit_.defects) {
    circuit_.network.law(element.handle).conductance_s = element.arisen_s;
  }
  marks.push_back({time_s, "", "the fault arises", static_cast<int>(network::Effect::Other)});
}

void Runner::apply(const Change& change, hybrid::Integrator& integrator, Recorder& recorder) {
  hybrid::Marks marks;
  mains_.apply(change);
  for (const network::Stimulus& stimulus : stimuli_of(build_, change)) {
    circuit_.network.stimulate(integrator.time_s(), integrator.y(), stimulus, marks);
  }
  if (change.what == Change::What::Defects) break_what_is_latent(integrator.time_s(), marks);
  integrator.disturbed();
  recorder.reacted(integrator.time_s(), integrator.y(), marks);
}

bool Runner::carry_out(const Stretch& stretch, hybrid::Integrator& integrator, Recorder& recorder) {
  const double begin_s = integrator.time_s();
  for (const Change& change : stretch.changes) mains_.apply(change);
  recorder.begin_stretch(begin_s, mains_.words(), mains_.all_present());
  for (const Change& change : stretch.changes) apply(change, integrator, recorder);
  const double lasts_s = stretch.lasts ? stretch.lasts->si() : settings_.patience.si();
  recorder.wait_for(stretch.until, begin_s, begin_s + lasts_s, progress_);
  outcome_ = integrator.advance(begin_s + lasts_s, recorder);
  const bool observed = outcome_.ended == hybrid::Ended::ByObserver && !recorder.stop_asked();
  const bool is_whole = !recorder.waits_in_vain() && !recorder.is_cut_short();
  const bool came = observed || stretch.until == Until::Time;
  recorder.end_stretch(integrator.time_s(), came && is_whole);
  return observed || (outcome_.ended == hybrid::Ended::AtTime && !recorder.stop_asked());
}

std::unique_ptr<hybrid::Integrator> Runner::make_integrator(std::vector<double> y) {
  if (settings_.integrator) return settings_.integrator(circuit_.network, std::move(y));
  const hybrid::Settings stepping{.relative_tolerance = settings_.relative_tolerance,
                                  .steps_over_transients = settings_.steps_over_transients,
                                  .most_reactions = most_reactions};
  return std::make_unique<hybrid::Stepper>(circuit_.network, stepping, 0.0, std::move(y));
}

Record Runner::run(const Timeline& timeline) {
  Settled settled = settle(circuit_, build_, settings_.settles, progress_);
  outcome_ = settled.outcome;
  const auto made = make_integrator(std::move(settled.y));
  hybrid::Integrator& integrator = *made;
  Recorder recorder(circuit_, build_, settings_.keeps_samples, integrator.y());
  recorder.allow_steps(settings_.most_steps_a_stretch);
  if (outcome_.ended == hybrid::Ended::ByObserver) recorder.stopped_before();
  bool goes_on = outcome_.ended == hybrid::Ended::AtTime;
  for (int round = 0; round < timeline.repeats && goes_on; ++round) {
    for (const Stretch& stretch : timeline.stretches) {
      goes_on = carry_out(stretch, integrator, recorder);
      if (!goes_on) break;
    }
  }
  if (goes_on) outcome_.ended = hybrid::Ended::AtTime;
  Record record =
      recorder.finish(integrator.time_s(), integrator.y(), outcome_, integrator.statistics());
  record.timeline = timeline.name;
  if (record.books.open_share > books_close_within) {
    record.outcome.ended = hybrid::Ended::OpenBooks;
    record.outcome.why = "the energy books do not close";
  }
  return record;
}

Stretch stretch_of(Change::Mains mains, Until until) {
  Stretch stretch;
  stretch.changes.push_back({.what = Change::What::Mains, .mains = mains});
  stretch.until = until;
  return stretch;
}

}  // namespace

/// The energy books say afterwards whether the steps were short enough for this build.
Record run(const Build& build, const Timeline& timeline, const Circumstances& circumstances,
           const Settings& settings, base::Progress& progress) {
  Settings trial = settings;
  Record record = Runner(build, circumstances, trial, progress).run(timeline);
  for (int k = 0; k < most_repeats && record.outcome.ended == hybrid::Ended::OpenBooks; ++k) {
    trial.relative_tolerance *= 0.1;
    trial.steps_over_transients = false;
    record = Runner(build, circumstances, trial, progress).run(timeline);
  }
  return record;
}

Timeline usual_timeline() {
  Stretch before = stretch_of(Change::Mains::Present, Until::Time);
  before.lasts = quantity::Value<Second>(Second::of_si(3600.0));
  Stretch dark = stretch_of(Change::Mains::Absent, Until::PackCutOff);
  Stretch after = stretch_of(Change::Mains::Present, Until::PackFull);
  return {"usual", {before, dark, after}, 1};
}

}  // namespace tideover::run

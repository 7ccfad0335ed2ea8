// What is wrong or broken is said before anything else.
#include <algorithm>

#include <doctest/doctest.h>

#include "part/diode/diode.hpp"
#include "question/verdict.hpp"
#include "support/hut.hpp"

using namespace tideover::question;
using namespace tideover::quantity::literals;
using tideover::network::Effect;
using tideover::run::Overload;
using tideover::test::hut;
using tideover::test::HutRun;

namespace {

constexpr double hour_s = 3600.0;

HutRun empties(double after_h) {
  HutRun run(12.0 * hour_s);
  run.cut_off(after_h * hour_s, "board", "cuts the discharge path: group 3 is empty");
  run.lost("sea", after_h * hour_s).lost("radio", after_h * hour_s);
  return run;
}

Verdict verdict_of(const HutRun& run, const tideover::build::Build& build = hut()) {
  const Trial trial = trial_of(run.record(), {});
  return judge({build, trial, trial, trial, {}});
}

const Judgement* find(const Verdict& verdict, std::string_view key) {
  const auto found = std::ranges::find(verdict.judgements, key, &Judgement::key);
  return found == verdict.judgements.end() ? nullptr : &*found;
}

Overload beyond(const std::string& part, const std::string& rating, std::size_t channel,
                double limit, double worst) {
  return {.part = part,
          .rating = rating,
          .channel = channel,
          .limit_si = limit,
          .is_upper = worst > limit,
          .worst = {worst, 4000.0_s},
          .mean_si = worst,
          .first = 4000.0_s,
          .total = 60.0_s,
          .longest = 60.0_s,
          .stands = 1.0_s,
          .source = "label"};
}

tideover::build::Build with_diode() {
  tideover::build::Build build = hut();
  auto diode = std::make_unique<tideover::part::Diode>();
  diode->name = "d_pack";
  build.parts.push_back(std::move(diode));
  return build;
}

}  // namespace

TEST_CASE("given a load whose leads are swapped, it is fed backwards and that leads the verdict") {
  HutRun run = empties(6.0);
  Overload swapped = beyond("sea", "polarity", 0, -0.5, -24.1);
  swapped.is_polarity = true;
  run.overload(swapped);
  const Verdict verdict = verdict_of(run);
  CHECK_FALSE(verdict.is_met);
  CHECK(verdict.headline.front() == "Before anything else: sea is fed backwards.");
  CHECK(verdict.judgements.front().key() == "polarity");
  CHECK(verdict.judgements.front().sentence ==
        "sea is fed backwards: input voltage -24.1 V, 1 min in all, first 6 min 40 s after the "
        "mains goes (cells as they are, 25 degC).");
}

TEST_CASE("given a fuse that blows in a run that carries everything, the fuse comes first") {
  HutRun run = empties(6.0);
  run.event(HutRun::before_s + 0.012, "f_fan", "blows", Effect::Breaks);
  const Verdict verdict = verdict_of(run);
  CHECK(verdict.outcome == Answer::Fails);
  CHECK(verdict.headline[0] == "Before anything else: f_fan blows.");
  CHECK(verdict.headline[1].starts_with("Would carry both devices for 6 h"));
  REQUIRE(find(verdict, "breaks") != nullptr);
  CHECK(find(verdict, "breaks")->sentence ==
        "f_fan blows 12 ms after the mains goes (cells as they are, 25 degC).");
}

TEST_CASE("given a device that gets too much, it is not simply carried") {
  HutRun run = empties(6.0);
  run.overload(beyond("sea", "highest input voltage", 0, 28.0, 30.0));
  const Verdict verdict = verdict_of(run);
  CHECK(verdict.headline[0] == "Before anything else: sea may get more than it accepts.");
  CHECK_FALSE(verdict.headline[1].starts_with("Carries"));
}

TEST_CASE("a device that comes and goes is told what it wants, another part what to set") {
  HutRun run = empties(6.0);
  Trial trial = trial_of(run.record(), {});
  trial.record.chatters = {{"sea", "is lost", 40, 4000.0_s, 5000.0_s, 25.0_s},
                           {"up24", "comes on", 40, 4000.0_s, 5000.0_s, 25.0_s}};
  const Verdict verdict = judge({hut(), trial, trial, trial, {}});
  std::vector<std::string> remedies;
  for (const Judgement& one : verdict.judgements) {
    if (one.key() == "chatter") remedies.push_back(one.remedy);
  }
  REQUIRE(remedies.size() == 2);
  CHECK(remedies[0].starts_with("sea: what feeds it must stay above 20 V"));
  CHECK(remedies[1].starts_with("up24: more distance between"));
}

TEST_CASE("a diode that only blocks while a device goes without is the wrong way round") {
  HutRun run(8.0 * hour_s);
  run.lost("radio", 0.1);
  run.always("d_pack", "current", 0.0).always("d_pack", "reverse voltage", 8.0);
  const Verdict verdict = verdict_of(run, with_diode());
  REQUIRE(find(verdict, "polarity") != nullptr);
  CHECK(find(verdict, "polarity")->sentence.starts_with("d_pack is fed backwards"));
}

TEST_CASE("a diode that blocks while every device is served is doing its work") {
  HutRun run(8.0 * hour_s);
  run.always("d_pack", "current", 0.0).always("d_pack", "reverse voltage", 3.0);
  CHECK(find(verdict_of(run, with_diode()), "polarity") == nullptr);
}

TEST_CASE("a diode across a device, to catch what comes backwards, is idle rightly") {
  HutRun run(8.0 * hour_s);
  run.lost("radio", 0.1);
  run.always("d_pack", "current", 0.0).always("d_pack", "reverse voltage", 24.0);
  CHECK(find(verdict_of(run, with_diode()), "polarity") == nullptr);
}

TEST_CASE(
    "a pack that is cut off from the start is told, and not where the sheet starts it empty") {
  HutRun run(8.0 * hour_s);
  run.cut_off(-HutRun::before_s, "board", "cuts the discharge path");
  CHECK(find(verdict_of(run), "pack_off")->sentence.starts_with("The pack is cut off"));
  auto build = hut();
  build.start.charge["pack"] = {};
  CHECK(find(verdict_of(run, build), "pack_off") == nullptr);
}

TEST_CASE("a peak of a moment is not told as hours of it") {
  HutRun run = empties(6.0);
  Overload peak = beyond("d_sea", "forward current", 5, 1.5, 30.0);
  peak.mean_si = 1.6;
  peak.total = 10800.0_s;
  run.overload(peak);
  const Verdict verdict = verdict_of(run);
  const Judgement* const rating = find(verdict, "rating");
  REQUIRE(rating != nullptr);
  CHECK(
      rating->sentence.starts_with("d_sea: output current 1.6 A on average and 30 A at its "
                                   "highest against 1.5 A allowed at most (forward current, "
                                   "label), 3 h in all"));
  CHECK(rating->remedy ==
        "d_sea: one made for 1.6 A or more, and peaks of 30 A, or see to it that it gets less.");
}

TEST_CASE("a lower limit below zero is told as what flows the other way") {
  HutRun run = empties(6.0);
  run.overload(beyond("board", "continuous charge current", 8, -3.41, -4.1));
  const Judgement rating = *find(verdict_of(run), "rating");
  CHECK(rating.sentence.starts_with(
      "board: continuous charge current 4.1 A against 3.41 A allowed at most (continuous charge "
      "current, label)"));
  CHECK(rating.remedy == "board: one made for 4.1 A or more, or see to it that it gets less.");
}

TEST_CASE("two values that differ are never printed alike") {
  HutRun run = empties(6.0);
  run.overload(beyond("gauge", "lowest temperature", 10, 273.15, 272.95));
  const Judgement rating = *find(verdict_of(run), "rating");
  CHECK(rating.sentence.find("-0.2 degC against 0 degC allowed at least") != std::string::npos);
  CHECK(rating.remedy == "gauge: see to it that it stays above 0 degC.");
}

TEST_CASE("a group that falls too low is cut off too late") {
  HutRun run = empties(6.0);
  run.overload(beyond("pack", "lowest cell voltage", 7, 2.5, 2.4));
  CHECK(find(verdict_of(run), "rating")->remedy ==
        "pack: what cuts off must do so sooner, above 2.5 V.");
}

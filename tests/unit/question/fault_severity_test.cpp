// Each rule at its limit, from runs written by hand.
#include "question/fault_severity.hpp"

#include <doctest/doctest.h>

#include "support/beacon.hpp"

using namespace tideover;
using namespace tideover::quantity::literals;
using quantity::Second;
using question::FaultRun;
using question::Harm;
using question::LoadEffect;
using question::Severity;

namespace {

constexpr double hour_s = 3600.0;

question::SoundRun sound_beacon() {
  return {.record = {},
          .outages = {},
          .outage = Second::of_si(6.0 * hour_s),
          .recharge = Second::of_si(6.0 * hour_s),
          .ambient = quantity::Temperature::of_celsius(20.0)};
}

FaultRun uneventful() {
  FaultRun run;
  run.ended = hybrid::Ended::AtTime;
  run.loss = question::before_outage;
  return run;
}

Harm harm(const std::string& part, const std::string& rating, double limit_si, double reached_si,
          double for_s) {
  return {.overload = {.part = part,
                       .rating = rating,
                       .limit_si = limit_si,
                       .is_upper = reached_si > limit_si,
                       .worst = {reached_si, {}},
                       .mean_si = reached_si,
                       .total = Second::of_si(for_s),
                       .longest = Second::of_si(for_s)},
          .dimension = quantity::Ampere::dimension};
}

Severity severity_of(const FaultRun& run) {
  return judge(test::beacon(), sound_beacon(), run).severity;
}
Severity severity_of(Harm one) {
  FaultRun run = uneventful();
  run.harms.push_back(std::move(one));
  return severity_of(run);
}
Severity severity_of(LoadEffect effect) {
  FaultRun run = uneventful();
  run.loads.push_back(std::move(effect));
  return severity_of(run);
}

}  // namespace

TEST_CASE("nothing beyond a limit and nothing lost: nothing seen") {
  CHECK(severity_of(uneventful()) == Severity::Nothing);
}

TEST_CASE("a lead burns past what its insulation stands for a moment, and is harmed before") {
  // 0.75 mm2 of copper under PVC, k = 115 A root s / mm2 (IEC 60364-4-43, from memory): k2S2 is
  // 7439 A2s.
  CHECK(severity_of(harm("leads.lamp_plus", "ampacity", 10.0, 86.0, 1.0)) == Severity::Breaks);
  CHECK(severity_of(harm("leads.lamp_plus", "ampacity", 10.0, 87.0, 1.0)) == Severity::Burns);
  // For good: somewhat over its ampacity it gets warm, at five times it burns.
  CHECK(severity_of(harm("leads.lamp_plus", "ampacity", 10.0, 11.0, hour_s)) == Severity::Breaks);
  CHECK(severity_of(harm("leads.lamp_plus", "ampacity", 10.0, 50.0, hour_s)) == Severity::Burns);
}

TEST_CASE("cells beyond current, temperature or charge voltage burn, emptied they break") {
  CHECK(severity_of(harm("pack", "discharge current", 17.0, 18.0, 10.0)) == Severity::Burns);
  CHECK(severity_of(harm("pack", "highest cell voltage", 4.25, 4.3, 10.0)) == Severity::Burns);
  CHECK(severity_of(harm("pack", "highest temperature", 333.0, 334.0, 70.0)) == Severity::Burns);
  CHECK(severity_of(harm("pack", "lowest cell voltage", 2.5, 2.0, 10.0)) == Severity::Breaks);
  CHECK(severity_of(harm("defects", "heat of the short", 5.0, 6.0, 70.0)) == Severity::Burns);
  CHECK(severity_of(harm("f_pack", "breaking capacity", 1000.0, 1001.0, 0.1)) == Severity::Burns);
}

TEST_CASE("what adapters, converters and fuses do at their own limit strains them only") {
  CHECK(severity_of(harm("mains24", "rated current", 1.0, 1.25, hour_s)) == Severity::Strains);
  CHECK(severity_of(harm("up24", "rated current", 1.0, 1.5, hour_s)) == Severity::Strains);
  CHECK(severity_of(harm("f_pack", "continuous current", 5.0, 6.0, hour_s)) == Severity::Strains);
  CHECK(severity_of(harm("up24", "highest input voltage", 20.0, 24.0, 1.0)) == Severity::Breaks);
}

TEST_CASE("a device lost with the mains, at once, a tenth early, or not much earlier") {
  const auto lost = [](double after_s) {
    return severity_of(LoadEffect{.load = "lamp", .lost_after = Second::of_si(after_s)});
  };
  CHECK(severity_of(LoadEffect{.load = "lamp", .is_lost_with_mains = true}) == Severity::Loses);
  CHECK(lost(9.0) == Severity::Loses);
  CHECK(lost(11.0) == Severity::Shortens);
  CHECK(lost(0.89 * 6.0 * hour_s) == Severity::Shortens);
  CHECK(lost(0.91 * 6.0 * hour_s) == Severity::Nothing);
  CHECK(severity_of(LoadEffect{.load = "lamp", .restarts = 1}) == Severity::Shortens);
  CHECK(severity_of(LoadEffect{.load = "lamp", .out_after_return = Second{}}) == Severity::Loses);
}

TEST_CASE("a recharge is slower from a fifth and ten minutes on") {
  FaultRun run = uneventful();
  run.sound_full_after = Second::of_si(5.0 * hour_s);
  CHECK(severity_of(run) == Severity::Slows);
  run.full_after = Second::of_si(6.1 * hour_s);
  CHECK(severity_of(run) == Severity::Nothing);
  run.full_after = Second::of_si(6.2 * hour_s);
  CHECK(severity_of(run) == Severity::Slows);
}

TEST_CASE("the worst is told first, and further beyond a limit weighs more") {
  FaultRun run = uneventful();
  run.harms.push_back(harm("up24", "highest input voltage", 20.0, 24.0, 100.0));
  run.harms.push_back(harm("pack", "discharge current", 17.0, 34.0, 10.0));
  const auto judged = judge(test::beacon(), sound_beacon(), run);
  CHECK(judged.severity == Severity::Burns);
  CHECK(judged.burns_with_mains);
  REQUIRE(judged.sentences.size() == 2);
  CHECK(judged.sentences[0].starts_with("pack: discharge current"));
  // Twice the limit, squared, for what counts as an hour.
  CHECK(judged.weight_share == doctest::Approx(4.0 * hour_s));
}

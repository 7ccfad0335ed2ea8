// A fan that stops on a hot day.

#include <doctest/doctest.h>

#include "support/beacon.hpp"
#include "support/fault_bench.hpp"

using namespace tideover;

namespace {

// The beacon's supply in a small box at 40 degC, with a fan that sweeps it while the mains is
// there.
build::Build boxed_beacon() {
  test::Changes changes{{"needs.ambient", "'40 degC'"},  {"box.kind", "'box'"},
                        {"box.width", "'160 mm'"},       {"box.height", "'100 mm'"},
                        {"box.depth", "'70 mm'"},        {"box.vent_low", "'10 cm2'"},
                        {"box.vent_high", "'10 cm2'"},   {"fan.kind", "'fan'"},
                        {"fan.rated_voltage", "'24 V'"}, {"fan.rated_current", "'60 mA'"},
                        {"fan.airflow", "'20 m3/h'"}};
  test::add_lead(changes, "fan_plus", "mains24.plus", "fan.plus", "'150 mm'");
  test::add_lead(changes, "fan_return", "fan.minus", "board.p_minus", "'150 mm'");
  return test::beacon(changes);
}

double hottest_c(const run::Record& record) {
  const int channel = record.find("charger", "body temperature");
  REQUIRE(channel >= 0);
  return record.highest[static_cast<std::size_t>(channel)].value_si - 273.15;
}

}  // namespace

TEST_CASE(
    "given a fan that stops on a hot day, the charger gets hotter and the fan is seen to stand") {
  const build::Build build = boxed_beacon();
  base::NoProgress nobody;
  const question::SoundRun sound = question::sound_run(build, nobody);
  const auto fault = question::together(question::faults_of(build), {"fan: stopped"});
  REQUIRE(fault);
  build::Workpiece piece(build);
  piece.vary(fault.value().variation);
  const question::FaultRun run = question::fault_run(piece.build(), sound, question::Onset::Start,
                                                     part::FuseLaw::Earliest, nobody);
  REQUIRE(run.ended == hybrid::Ended::AtTime);
  CHECK(hottest_c(run.record) > hottest_c(sound.record) + 3.0);
  const auto check = question::cheapest_check(build, sound, run, {});
  REQUIRE(check);
  CHECK(check->effort == question::Effort::Look);
  CHECK(check->words == "fan stands still");
}

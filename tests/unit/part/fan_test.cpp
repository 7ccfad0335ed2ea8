// A fan: its draw over voltage, its air, and the box it cools.
#include "part/fan/fan.hpp"

#include <array>

#include <doctest/doctest.h>

#include "support/part_bench.hpp"

namespace {

using namespace tideover;
using namespace tideover::quantity::literals;
using part::Fan;
using quantity::CubicMetrePerSecond;
using tests::BenchSupply;
using tests::PartBench;
using tests::stated;

constexpr auto free_air = CubicMetrePerSecond::of_si(0.002);

Fan fan_12_v() {
  Fan fan;
  fan.name = "fan";
  fan.rated_voltage = stated(12_V);
  fan.rated_current = stated(100_mA);
  fan.airflow = stated(free_air);
  return fan;
}

part::FanPoint point(quantity::Volt voltage, quantity::Ampere current) {
  part::FanPoint made;
  made.voltage = stated(voltage);
  made.current = stated(current);
  return made;
}

}  // namespace

TEST_CASE("below its stall voltage a fan stands still and no more than leaks") {
  const part::FanDraw law = fan_12_v().law();
  CHECK(fan_12_v().stall_voltage().si() == doctest::Approx(4.8));
  CHECK(law.current_a_at(4.0) == doctest::Approx(4.0 * part::FanDraw::leak_s));
  CHECK(law.airflow_m3_per_s_at(4.0) == 0.0);
  CHECK(law.current_a_at(-12.0) == doctest::Approx(-12.0 * part::FanDraw::leak_s));
  CHECK(law.current_a_at(5.5) > 0.0);
}

TEST_CASE("airflow goes with the voltage, and half of it passes the openings of the box") {
  const part::FanDraw law = fan_12_v().law();
  CHECK(law.airflow_m3_per_s_at(12.0) == doctest::Approx(0.5 * 0.002));
  CHECK(law.airflow_m3_per_s_at(6.0) == doctest::Approx(0.25 * 0.002));
}

TEST_CASE("a fan that only stirs the box carries nothing out of it") {
  Fan fan = fan_12_v();
  fan.blows = part::FanBlows::Inside;
  CHECK(fan.law().airflow_m3_per_s_at(12.0) == 0.0);
}

TEST_CASE("measured airflow overrides the label, and two measured airflows fix its exponent") {
  Fan fan = fan_12_v();
  fan.measured = {point(12_V, 150_mA), point(6_V, 71_mA)};
  fan.measured[0].airflow = stated(CubicMetrePerSecond::of_si(0.0030));
  CHECK(fan.law().airflow_m3_per_s_at(6.0) == doctest::Approx(0.5 * 0.0015));
  fan.measured[1].airflow = stated(CubicMetrePerSecond::of_si(0.0012));
  CHECK(fan.law().airflow_m3_per_s_at(12.0) == doctest::Approx(0.5 * 0.0030));
  CHECK(fan.law().airflow_m3_per_s_at(6.0) == doctest::Approx(0.5 * 0.0012));
}

TEST_CASE("a fan in a warm box takes heat out and brings its own in") {
  const part::FanDraw law = fan_12_v().law();
  const std::array u{12.0, 0.0, 318.15, 298.15};
  std::array<double, 4> flow{};
  law.equations(u.data(), u.data(), flow.data(), flow.data());
  const double carried_w = law.air_heat_j_per_m3_k * 0.001 * 20.0;
  CHECK(flow[3] == doctest::Approx(-carried_w));
  CHECK(flow[2] == doctest::Approx(carried_w - 1.2));
  CHECK(carried_w > 22.0);
}

TEST_CASE("a fan at 9 V of 12 V is quieter by six decibels, by the fan laws") {
  CHECK(fan_12_v().noise_change_db(9_V) == doctest::Approx(-6.25).epsilon(0.01));
}

TEST_CASE("a fan on the bench reads its voltage, current and air") {
  PartBench bench;
  bench.install(fan_12_v(), {{"plus", "rail"}, {"minus", "0"}});
  bench.net.add(BenchSupply{}, {bench.point("rail"), bench.point("0")}, "supply");
  bench.start();
  bench.go(1.0);
  CHECK(bench.reads("fan", "current") == doctest::Approx(0.1).epsilon(0.01));
  CHECK(bench.reads("fan", "airflow") == doctest::Approx(0.001).epsilon(0.01));
}

TEST_CASE("a fan whose values do not fit each other is told") {
  Fan fan = fan_12_v();
  CHECK(fan.contradictions().empty());
  fan.stall = stated(12_V);
  CHECK(fan.contradictions().front() == "stall: must lie below rated_voltage");
  fan = fan_12_v();
  fan.measured = {point(12_V, 100_mA), point(11.9_V, 95_mA)};
  CHECK(fan.contradictions().size() == 1);
  fan.measured = {point(12_V, 100_mA), point(6_V, 200_mA)};
  CHECK(fan.contradictions().size() == 1);
  fan.measured.clear();
  fan.rated_current = {};
  CHECK(fan.contradictions().size() == 1);
}

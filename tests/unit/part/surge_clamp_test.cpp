#include "part/surge_clamp/surge_clamp.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "support/closeness.hpp"
#include "support/part_bench.hpp"
#include "support/source_law.hpp"

namespace {

using namespace tideover;
using namespace part;
using namespace quantity;
using namespace quantity::literals;
using tests::relative_error;
using tests::stated;

SurgeClamp clamp_of(ClampWays ways) {
  SurgeClamp clamp;
  clamp.name = "z1";
  clamp.threshold = stated(30_V);
  clamp.ways = ways;
  return clamp;
}

/// The clamp's voltage behind 10 Ohm.
double clamped_v(const SurgeClamp& clamp, double volt_v) {
  tests::PartBench bench;
  bench.net.add(tests::Source{.volt_v = volt_v, .source_ohm = 10.0},
                {bench.point("rail"), network::reference_node}, "supply");
  bench.install(clamp, {{"plus", "rail"}, {"minus", "0"}});
  bench.start();
  bench.go(1e-6);
  return bench.volts("rail");
}

}  // namespace

TEST_CASE("given a rail at its stand-off, then only the leakage flows") {
  tests::PartBench bench;
  bench.net.add(tests::Source{.volt_v = 25.8}, {bench.point("rail"), network::reference_node}, "s");
  bench.install(clamp_of(ClampWays::One), {{"plus", "rail"}, {"minus", "0"}});
  bench.start();
  bench.go(1.0);
  CHECK(relative_error(bench.reads("z1", "current"), 5e-6) < 1e-3);
}

TEST_CASE("given a surge, then the rail stands at the threshold and R times i") {
  // 100 V through 10 Ohm: i = (100 - 30) / (10 + 0.3); the rounded corner lies 0.3 V higher.
  const double current_a = 70.0 / 10.3;
  CHECK(std::abs(clamped_v(clamp_of(ClampWays::One), 100.0) - (30.0 + 0.3 * current_a)) < 0.35);
}

TEST_CASE("given the wrong polarity, then a one-way clamp is a diode and a two-way one clamps") {
  CHECK(std::abs(clamped_v(clamp_of(ClampWays::One), -100.0) + 1.2) < 0.1);
  CHECK(std::abs(clamped_v(clamp_of(ClampWays::Both), -100.0) + 32.0) < 0.5);
}

TEST_CASE("given its ratings, then stand-off, peak and steady power are watched") {
  tests::PartBench bench;
  bench.install(clamp_of(ClampWays::One), {{"plus", "rail"}, {"minus", "0"}});
  REQUIRE(bench.instruments.ratings.size() == 3);
  CHECK(bench.instruments.ratings[0].limit_si == doctest::Approx(25.8));
  CHECK(bench.instruments.ratings[1].limit_si == 600.0);
}

TEST_CASE("given a stand-off above the threshold, then it is named") {
  SurgeClamp clamp = clamp_of(ClampWays::One);
  clamp.stand_off = stated(31_V);
  CHECK(clamp.contradictions().front() == "stand_off: must lie below the threshold");
}

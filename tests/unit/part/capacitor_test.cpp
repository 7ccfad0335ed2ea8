// A capacitor of its own: charge, leakage, age.
#include "part/capacitor/capacitor.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "part/resistance.hpp"
#include "support/part_bench.hpp"

namespace {

using namespace tideover;
using namespace tideover::quantity::literals;
using part::Capacitor;
using tests::BenchSupply;
using tests::PartBench;
using tests::stated;

Capacitor hold_up() {
  Capacitor capacitor;
  capacitor.name = "hold_up";
  capacitor.capacitance = stated(2200_uF);
  capacitor.rated = stated(35_V);
  return capacitor;
}

}  // namespace

TEST_CASE("given an empty capacitor behind 100 ohm, then it charges with their time constant") {
  PartBench bench;
  bench.install(hold_up(), {{"plus", "rail"}, {"minus", "0"}});
  bench.net.add(BenchSupply{.volts = 24.0, .ohms = 100.0}, {bench.point("rail"), bench.point("0")},
                "supply");
  bench.start();
  const double time_constant_s = 2200e-6 * (100.0 + 0.05);
  bench.go(time_constant_s);
  // The rail stands above the plates by the drop over the series resistance, 0.05 of 100 ohm.
  CHECK(bench.reads("hold_up", "voltage") ==
        doctest::Approx(24.0 * (1.0 - std::exp(-1.0))).epsilon(1e-3));
}

TEST_CASE("a charged capacitor left alone loses its charge through its leakage") {
  PartBench bench;
  Capacitor capacitor = hold_up();
  capacitor.leakage = stated(35_uA);  // 1 Mohm at 35 V
  bench.install(capacitor, {{"plus", "rail"}, {"minus", "0"}});
  const auto supply = bench.net.add(BenchSupply{.volts = 24.0, .ohms = 0.1},
                                    {bench.point("rail"), bench.point("0")}, "supply");
  bench.start();
  bench.go(0.1);
  bench.net.law(supply).ohms = 1e9;
  bench.disturbed();
  bench.go(2200.0);
  CHECK(bench.volts("rail") == doctest::Approx(24.0 * std::exp(-1.0)).epsilon(2e-3));
}

TEST_CASE("at the end of its life a capacitor has a fifth less and twice the series resistance") {
  Capacitor capacitor = hold_up();
  capacitor.used = stated(100_percent);
  CHECK(capacitor.aged_capacitance().si() == doctest::Approx(0.8 * 2200e-6));
  CHECK(capacitor.aged_esr().si() == doctest::Approx(0.1));
  CHECK(hold_up().aged_capacitance().si() == doctest::Approx(2200e-6));
}

TEST_CASE(
    "life doubles for every 10 K: 2000 h at 105 degC are 128000 h at 45 degC, common practice, "
    "no source") {
  CHECK(hold_up().life_at(45_degC).si() == doctest::Approx(128000.0 * 3600.0));
  Capacitor steeper = hold_up();
  steeper.life_doubles = stated(8_K);
  CHECK(steeper.life_at(97_degC).si() == doctest::Approx(4000.0 * 3600.0));
}

TEST_CASE("an electrolytic capacitor may not be reversed, a film capacitor may") {
  for (const auto make : {part::CapacitorMake::Electrolytic, part::CapacitorMake::Film}) {
    Capacitor capacitor = hold_up();
    capacitor.make = make;
    PartBench bench;
    bench.install(capacitor, {{"plus", "rail"}, {"minus", "0"}});
    const auto& ratings = bench.instruments.ratings;
    REQUIRE(ratings.size() == 2);
    CHECK(!ratings[1].is_upper);
    const bool is_poled = make == part::CapacitorMake::Electrolytic;
    CHECK(ratings[1].limit_si == doctest::Approx(is_poled ? -1.0 : -35.0));
  }
}

TEST_CASE("a capacitor that leaks like a short circuit is told") {
  Capacitor capacitor = hold_up();
  capacitor.rated = stated(1_V);
  capacitor.esr = stated(10_Ohm);
  capacitor.leakage = stated(10_mA);
  CHECK(capacitor.contradictions().size() == 1);
  CHECK(hold_up().contradictions().empty());
}

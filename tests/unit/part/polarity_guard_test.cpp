#include "part/polarity_guard/polarity_guard.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "part/fuse/fuse.hpp"
#include "part/resistance.hpp"
#include "support/part_bench.hpp"
#include "support/source_law.hpp"

namespace {

using namespace tideover;
using namespace part;
using namespace quantity;
using namespace quantity::literals;
using tests::stated;

/// A supply behind 10 mOhm and a fuse, the guard, 12 Ohm behind it.
struct GuardBench {
  GuardBench(GuardStyle style, double volt_v) {
    PolarityGuard guard;
    guard.name = "g1";
    guard.style = style;
    Fuse fuse;
    fuse.name = "f1";
    fuse.rated = stated(2_A);
    supply = bench.net.add(tests::Source{.volt_v = volt_v, .source_ohm = 0.01},
                           {bench.point("supply"), network::reference_node}, "supply");
    bench.install(fuse, {{"a", "supply"}, {"b", "in"}});
    bench.install(guard, {{"in", "in"}, {"out", "out"}, {"minus", "0"}});
    bench.net.add(Resistance{1.0 / 12.0}, {bench.point("out"), network::reference_node}, "load");
    bench.start();
    bench.go(10.0);
  }
  double drop_v() { return bench.volts("in") - bench.volts("out"); }
  tests::PartBench bench;
  network::Handle<tests::Source> supply;
};

}  // namespace

TEST_CASE("given the right polarity, then each style lets the current through at its own drop") {
  GuardBench diode(GuardStyle::SeriesDiode, 12.0);
  CHECK(diode.drop_v() > 0.3);
  CHECK(diode.drop_v() < 0.5);
  GuardBench mosfet(GuardStyle::Mosfet, 12.0);
  CHECK(mosfet.drop_v() ==
        doctest::Approx(0.02 * mosfet.bench.reads("g1", "current")).epsilon(0.01));
  GuardBench crowbar(GuardStyle::Crowbar, 12.0);
  CHECK(crowbar.drop_v() < 2e-3);
  for (GuardBench* build : {&diode, &mosfet, &crowbar}) {
    CHECK(build->bench.reads("g1", "current") == doctest::Approx(build->bench.volts("out") / 12.0));
  }
}

TEST_CASE("given the wrong polarity, then a diode and a MOSFET keep it out") {
  for (const GuardStyle style : {GuardStyle::SeriesDiode, GuardStyle::Mosfet}) {
    GuardBench build(style, -12.0);
    CHECK(std::abs(build.bench.volts("out")) < 0.02);  // the leakage of a Schottky over 12 Ohm
    CHECK(build.bench.times_said("f1", "blows") == 0);
  }
}

TEST_CASE(
    "given the wrong polarity, then a crowbar holds it to a diode's drop and the fuse blows") {
  GuardBench build(GuardStyle::Crowbar, -12.0);
  CHECK(build.bench.times_said("f1", "blows") == 1);
  CHECK(std::abs(build.bench.volts("out")) < 0.01);
}

TEST_CASE(
    "given a MOSFET guard and a supply that falls below what hangs behind, then it lets "
    "current back, and a diode does not") {
  for (const GuardStyle style : {GuardStyle::SeriesDiode, GuardStyle::Mosfet}) {
    PolarityGuard guard;
    guard.name = "g1";
    guard.style = style;
    tests::PartBench bench;
    bench.net.add(tests::Source{.volt_v = 10.0, .source_ohm = 10.0},
                  {bench.point("in"), network::reference_node}, "supply");
    bench.net.add(tests::Source{.volt_v = 12.0, .source_ohm = 10.0},
                  {bench.point("out"), network::reference_node}, "pack");
    bench.install(guard, {{"in", "in"}, {"out", "out"}, {"minus", "0"}});
    bench.start();
    bench.go(1.0);
    if (style == GuardStyle::Mosfet) {
      CHECK(bench.reads("g1", "current") == doctest::Approx(-0.1).epsilon(0.01));
    } else {
      CHECK(bench.reads("g1", "current") > -1e-3);
    }
  }
}

#include "part/ideal_diode/ideal_diode.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "part/load/load_draw.hpp"
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

/// 12 V behind 50 mOhm, the ideal diode, and on its cathode a load and a second supply.
struct OrBench {
  explicit OrBench(IdealDiode diode, double load_a, double second_v) {
    diode.name = "d1";
    bench.net.add(tests::Source{.volt_v = 12.0, .source_ohm = 0.05},
                  {bench.point("in"), network::reference_node}, "supply");
    bench.install(diode, {{"anode", "in"}, {"cathode", "out"}, {"minus", "0"}});
    load = bench.net.add(LoadDraw{.current_a = load_a},
                         {bench.point("out"), network::reference_node}, "load");
    second =
        bench.net.add(tests::Source{.volt_v = second_v, .source_ohm = second_v > 0.0 ? 0.05 : 1e9},
                      {bench.point("out"), network::reference_node}, "second");
    bench.start();
  }
  void poke() { bench.stimulate({.what = network::Stimulus::What::SwitchTo}); }
  double drop_v() { return bench.volts("in") - bench.volts("out"); }

  tests::PartBench bench;
  network::Handle<LoadDraw> load;
  network::Handle<tests::Source> second;
};

}  // namespace

TEST_CASE("given a load, then the drop is the regulated one or R times i, whichever is larger") {
  IdealDiode diode;
  for (const double load_a : {0.01, 0.5, 1.5, 3.0, 10.0}) {
    OrBench build(diode, load_a, 0.0);
    build.bench.go(0.01);
    // Regulation is not infinitely stiff: its drop lies up to a quarter below at no current and
    // a twentieth of R i above.
    const double expected_v = std::fmax(0.02, 0.01 * load_a);
    CHECK(build.drop_v() < 1.06 * expected_v);
    CHECK(build.drop_v() > (load_a < 2.0 ? 0.75 : 0.999) * expected_v);
    CHECK(build.bench.reads("d1", "current") == doctest::Approx(load_a).epsilon(1e-4));
  }
}

TEST_CASE("given the first instant, then only its body diode conducts until it has turned on") {
  IdealDiode diode;
  diode.turn_on = stated(1_ms);
  OrBench build(diode, 1.0, 0.0);
  build.bench.go(0.5e-3);
  CHECK(build.drop_v() > 0.6);
  build.bench.go(1e-3);
  CHECK(build.drop_v() < 0.03);
}

TEST_CASE(
    "given a second supply that steps above it, then it conducts backwards until it turns off") {
  IdealDiode diode;
  diode.turn_off = stated(50_us);
  OrBench build(diode, 4.0, 0.0);
  build.bench.go(0.01);
  build.bench.net.law(build.second) = {.volt_v = 14.0, .source_ohm = 0.05};
  build.poke();
  build.bench.go(30e-6);
  CHECK(build.bench.reads("d1", "current") < -5.0);
  build.bench.go(100e-6);
  CHECK(build.bench.reads("d1", "current") > -1e-3);
  CHECK(build.bench.said_s("d1", "blocks current that has turned back") ==
        doctest::Approx(0.01 + 50e-6).epsilon(1e-6));
  // The second supply goes: it takes over again through its body diode and then its channel.
  build.bench.net.law(build.second).source_ohm = 1e9;
  build.poke();
  build.bench.go(0.01);
  CHECK(build.drop_v() < 0.05);
  CHECK(build.bench.reads("d1", "current") == doctest::Approx(4.0).epsilon(1e-3));
}

TEST_CASE("given a higher second supply from the start, then it never conducts") {
  OrBench build(IdealDiode(), 1.0, 13.0);
  build.bench.go(1.0);
  CHECK(build.bench.reads("d1", "current") <= 0.0);
  CHECK(build.bench.reads("d1", "current") > -1e-6);
  CHECK(build.bench.marks.empty());
}

TEST_CASE("given an own draw, then its anode gives it and minus takes it") {
  IdealDiode diode;
  diode.own_draw = stated(2_mA);
  CHECK(diode.terminals()[2].must_be_wired);
  OrBench build(diode, 0.0, 0.0);
  build.bench.go(0.1);
  CHECK(relative_error((12.0 - build.bench.volts("in")) / 0.05, 2e-3) < 1e-3);
}

TEST_CASE("given two in a row and next to no load, then the point between them stays between") {
  // A controller that meets so little keeps its gate nearly empty: what flows is leakage.
  IdealDiode first;
  IdealDiode second;
  first.name = "d1";
  second.name = "d2";
  tests::PartBench bench;
  const auto supply = bench.net.add(tests::Source{.volt_v = 12.0, .source_ohm = 0.05},
                                    {bench.point("in"), network::reference_node}, "supply");
  bench.install(first, {{"anode", "in"}, {"cathode", "middle"}, {"minus", "0"}});
  bench.install(second, {{"anode", "middle"}, {"cathode", "out"}, {"minus", "0"}});
  const auto load = bench.net.add(LoadDraw{.current_a = 0.0},
                                  {bench.point("out"), network::reference_node}, "load");
  bench.start();
  for (const double load_a : {0.0, 1e-6, 1e-3, 2.0, 1e-7}) {
    CAPTURE(load_a);
    bench.net.law(load).current_a = load_a;
    bench.stimulate({.what = network::Stimulus::What::SwitchTo});
    bench.go(0.1);
    CHECK(bench.volts("middle") <= bench.volts("in"));
    CHECK(bench.volts("out") <= bench.volts("middle"));
    CHECK(bench.volts("in") - bench.volts("out") < 2.0 * 0.0212);
  }
  // The supply falls away under them: whatever is blocked first, nothing runs back.
  bench.net.law(supply).volt_v = 5.0;
  bench.stimulate({.what = network::Stimulus::What::SwitchTo});
  bench.go(0.1);
  CHECK(bench.reads("d1", "current") > -1e-3);
}

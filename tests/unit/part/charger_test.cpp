// How a charge goes, on a pack that is a large capacitance behind a resistance.
#include "part/charger/charger.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "part/adapter/adapter.hpp"
#include "part/capacitor_law.hpp"
#include "part/load/load_draw.hpp"
#include "part/resistance.hpp"
#include "support/part_bench.hpp"

namespace {

using namespace tideover;
using namespace quantity;
using namespace quantity::literals;
using network::Fact;
using part::Capacitance;
using part::Charger;
using part::LoadDraw;
using part::Resistance;
using tests::BenchSupply;
using tests::PartBench;
using tests::stated;

/// For four lithium groups in series.
Charger four_series() {
  Charger c;
  c.name = "charger";
  c.voltage = stated(16.8_V);
  c.current = stated(0.9_A);
  return c;
}

struct Setup {
  PartBench bench;
  network::Handle<BenchSupply> supply;
  network::Handle<Capacitance> pack;
  network::Handle<Resistance> drain;

  Setup(const Charger& charger, double pack_v, double air_c = 25.0, double supply_v = 19.3)
      : bench(air_c) {
    bench.install(charger,
                  {{"in_plus", "in"}, {"in_minus", "0"}, {"out_plus", "pack"}, {"out_minus", "0"}});
    supply = bench.net.add(BenchSupply{supply_v, 0.05},
                           {bench.point("in"), network::reference_node}, "supply");
    // 100 F take 0.9 A at 9 mV/s: minutes stand for hours.
    pack = bench.net.add(Capacitance{.capacitance_f = 100.0, .esr_ohm = 0.1},
                         {bench.point("pack"), network::reference_node},
                         {{{"charge", pack_v, 1.0}}}, "pack");
    drain =
        bench.net.add(Resistance{1e-9}, {bench.point("pack"), network::reference_node}, "drain");
    bench.start();
    bench.go(0.5);
  }
  void supply_gives(double volts) {
    bench.net.law(supply).volts = volts;
    bench.disturbed();
  }
  void drain_takes(double siemens) {
    bench.net.law(drain).conductance_s = siemens;
    bench.disturbed();
  }
  [[nodiscard]] double amps() const { return bench.reads("charger", "output current"); }
  [[nodiscard]] double volts() { return bench.volts("pack"); }
};

}  // namespace

TEST_CASE(
    "given a pack below its voltage, then the current limit rules, at the voltage limit it falls "
    "off") {
  Setup at(four_series(), 15.0);
  CHECK(at.amps() == doctest::Approx(0.9).epsilon(1e-3));
  at.bench.go(300.0);
  CHECK(at.amps() < 0.05);
  CHECK(at.volts() == doctest::Approx(16.8).epsilon(1e-4));
}

TEST_CASE("given no end current, then it holds its voltage and says when the pack is full") {
  Setup at(four_series(), 16.5);
  CHECK_FALSE(at.bench.is("charger", Fact::Full));
  at.bench.go(300.0);
  CHECK(at.bench.is("charger", Fact::Full));
  CHECK(at.bench.times_said("charger", "has charged: holds its voltage") == 1);
  at.drain_takes(0.02);
  at.bench.go(60.0);
  // 0.34 A out of the pack come from the charger: full no more, the voltage still stands.
  CHECK_FALSE(at.bench.is("charger", Fact::Full));
  CHECK(at.amps() == doctest::Approx(0.336).epsilon(0.02));
}

TEST_CASE("given an input that falls below the pack, then no current does not mean a full pack") {
  // 16.6 V is within the last two hundredths below the limit: only the input is missing.
  Setup charging(four_series(), 16.6);
  charging.supply_gives(15.5);
  charging.bench.go(30.0);
  CHECK(charging.amps() == 0.0);
  CHECK(charging.bench.times_said("charger", "turns off: too little input") == 0);
  CHECK_FALSE(charging.bench.is("charger", Fact::Full));
  CHECK(charging.bench.times_said("charger", "has charged: holds its voltage") == 0);
}

TEST_CASE(
    "given a full pack whose outage begins, then it counts as full no more, and again later") {
  for (const bool ends : {false, true}) {
    Charger c = four_series();
    if (ends) c.ends_at = stated(0.1_A);
    Setup at(c, 16.5);
    at.bench.go(300.0);
    REQUIRE(at.bench.is("charger", Fact::Full));
    // What a diode and the board's own body diode leave of a pack at its input.
    at.supply_gives(15.5);
    at.bench.go(1e-3);
    CHECK_FALSE(at.bench.is("charger", Fact::Full));
    at.drain_takes(0.1);
    at.bench.go(10.0);
    at.drain_takes(0.0);
    at.supply_gives(19.3);
    at.bench.go(0.5);
    CHECK_FALSE(at.bench.is("charger", Fact::Full));
    CHECK(at.amps() > 0.1);
    at.bench.go(300.0);
    CHECK(at.bench.is("charger", Fact::Full));
  }
}

TEST_CASE(
    "given an end current, then it turns itself off, and begins again when the pack has fallen") {
  Charger c = four_series();
  c.ends_at = stated(0.1_A);
  Setup at(c, 16.5);
  at.bench.go(200.0);
  CHECK(at.bench.is("charger", Fact::Full));
  CHECK(at.amps() == 0.0);
  const double ended_v = at.volts();
  CHECK(ended_v > 16.75);
  at.drain_takes(0.05);
  at.bench.go(60.0);
  CHECK(at.bench.times_said("charger", "begins again") == 0);
  at.bench.go(100.0);
  CHECK(at.bench.times_said("charger", "begins again") == 1);
  CHECK_FALSE(at.bench.is("charger", Fact::Full));
}

TEST_CASE("given a very empty pack, then it goes gently until the pack has come up") {
  Charger c = four_series();
  c.gentle_below = stated(12.0_V);
  Setup at(c, 11.8);
  CHECK(at.amps() == doctest::Approx(0.09).epsilon(1e-2));
  at.bench.go(1000.0);
  CHECK(at.bench.times_said("charger", "goes over to its full current") == 1);
  CHECK(at.amps() > 0.1);
}

TEST_CASE("given a timer, then it gives up until its input has been away") {
  Charger c = four_series();
  c.gives_up_after = stated(60.0_s);
  Setup at(c, 14.0);
  at.bench.go(70.0);
  CHECK(at.bench.times_said("charger", "gives up: it has charged too long") == 1);
  CHECK(at.amps() == 0.0);
  at.supply_gives(0.0);
  at.bench.go(1.0);
  at.supply_gives(19.3);
  at.bench.go(1.0);
  CHECK(at.amps() == doctest::Approx(0.9).epsilon(1e-3));
}

TEST_CASE("given cold air and a sensor, then it waits") {
  Charger c = four_series();
  c.waits_below = stated(0.0_degC);
  Setup cold(c, 14.0, -5.0);
  CHECK(cold.amps() == 0.0);
  CHECK(cold.bench.times_said("charger", "waits: too cold to charge") == 1);
  Setup mild(c, 14.0, 5.0);
  CHECK(mild.amps() == doctest::Approx(0.9).epsilon(1e-3));
}

TEST_CASE(
    "given no input, then it drains the pack by its divider alone, unless it does not block") {
  Setup blocking(four_series(), 16.8, 25.0, 0.0);
  blocking.bench.go(10.0);
  CHECK(blocking.amps() == 0.0);
  // 1 mA at 16.8 V, as a resistance: 10 s of it are 0.1 mV on 100 F.
  CHECK(16.8 - blocking.volts() == doctest::Approx(1e-3 * 0.1 + 1e-3 * 10.5 / 100.0).epsilon(0.05));

  Charger open = four_series();
  open.blocks_back = false;
  PartBench bench;
  bench.install(open,
                {{"in_plus", "in"}, {"in_minus", "0"}, {"out_plus", "pack"}, {"out_minus", "0"}});
  bench.net.add(BenchSupply{16.0, 0.1}, {bench.point("pack"), network::reference_node}, "pack");
  bench.net.add(Resistance{0.01}, {bench.point("in"), network::reference_node}, "device");
  bench.start();
  bench.go(1.0);
  CHECK(bench.volts("in") == doctest::Approx(15.3).epsilon(0.01));
}

TEST_CASE(
    "given a pack above its voltage, then it gives nothing and takes only its divider's current") {
  Setup at(four_series(), 17.5);
  CHECK(at.amps() == 0.0);
  CHECK(at.volts() == doctest::Approx(17.5).epsilon(1e-4));
}

namespace {

/// A 19.3 V adapter rated 1.75 A feeds its device (0.55 A at most) and a charger for a four-series
/// pack: common practice, no source.
struct SharedAdapter {
  PartBench bench;

  explicit SharedAdapter(Ampere charge) {
    part::Adapter adapter;
    adapter.name = "mains19";
    adapter.output = stated(19.3_V);
    adapter.rated = stated(1.75_A);
    Charger charger = four_series();
    charger.current = stated(charge);
    bench.install(adapter, {{"plus", "rail"}, {"minus", "0"}});
    bench.install(
        charger,
        {{"in_plus", "rail"}, {"in_minus", "0"}, {"out_plus", "pack"}, {"out_minus", "0"}});
    bench.net.add(LoadDraw{.power_w = 0.55 * 19.3, .resistive_below_v = 10.0},
                  {bench.point("rail"), network::reference_node}, "device");
    bench.net.add(Capacitance{.capacitance_f = 4000.0, .esr_ohm = 0.15},
                  {bench.point("pack"), network::reference_node}, {{{"charge", 15.0, 1.0}}},
                  "pack");
    bench.start();
    bench.go(60.0);
  }
};

}  // namespace

TEST_CASE("a charger set to 0.9 A leaves its adapter head-room (common practice, no source)") {
  SharedAdapter at(0.9_A);
  CHECK(at.bench.reads("mains19", "share of rating") < 0.9);
  CHECK(at.bench.reads("mains19", "share of rating") > 0.6);
  CHECK(at.bench.volts("rail") > 19.0);
  CHECK(at.bench.reads("charger", "share of current limit") == doctest::Approx(1.0).epsilon(1e-3));
}

TEST_CASE(
    "a charger set to 3 A overloads its adapter and the device's rail collapses (common practice, "
    "no source)") {
  SharedAdapter at(3.0_A);
  CHECK(at.bench.reads("mains19", "share of rating") > 1.2);
  // The rail falls to where the step-down drops out on the pack.
  CHECK(at.bench.volts("rail") < 17.0);
  CHECK(at.bench.volts("rail") > 15.0);
  CHECK(at.bench.reads("charger", "share of current limit") < 0.6);
}

TEST_CASE("a charger says what is wrong between its values") {
  Charger c = four_series();
  CHECK(c.contradictions().empty());
  c.ends_at = stated(1.0_A);
  c.begins_again_below = stated(17.0_V);
  c.gentle_current = stated(2.0_A);
  c.voltage = stated(16.8_V);
  CHECK(c.contradictions() == std::vector<std::string>{"ends_at: must lie below current",
                                                       "begins_again_below: must lie below voltage",
                                                       "gentle_current: is more than current"});
}

#include "part/relay/relay.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "part/capacitor_law.hpp"
#include "part/relay/armature.hpp"
#include "part/resistance.hpp"
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

Relay small_relay() {
  Relay relay;
  relay.name = "k1";
  relay.coil_resistance = stated(400_Ohm);
  relay.suppression = Suppression::Diode;
  return relay;
}

/// Rail on the coil, 5 V on `common`, 100 Ohm from `rest` and from `work` to the return.
struct Changeover {
  explicit Changeover(const Relay& relay) {
    auto& net = bench.net;
    supply = net.add(tests::Source{.volt_v = 0.0}, {bench.point("coil"), network::reference_node},
                     "supply");
    net.add(tests::Source{.volt_v = 5.0}, {bench.point("common"), network::reference_node},
            "signal");
    for (const char* side : {"rest", "work"}) {
      net.add(Resistance{0.01}, {bench.point(side), network::reference_node}, side);
    }
    bench.install(relay, {{"coil_plus", "coil"},
                          {"coil_minus", "0"},
                          {"common", "common"},
                          {"rest", "rest"},
                          {"work", "work"}});
    bench.start();
  }
  void set(double volt_v) {
    bench.net.law(supply).volt_v = volt_v;
    bench.stimulate({.what = network::Stimulus::What::SwitchTo});
  }
  bool rest() { return bench.volts("rest") > 4.0; }
  bool work() { return bench.volts("work") > 4.0; }

  tests::PartBench bench;
  network::Handle<tests::Source> supply;
};

/// Counts the closings of the work contact and looks for both contacts closed at once.
struct ContactWatch final : hybrid::Observer {
  ContactWatch(const network::Network& n, network::NodeId r, network::NodeId w)
      : net(n), rest(r), work(w) {}
  void reacted(double time_s, std::span<const double> y, const hybrid::Marks&) override {
    const auto view = net.view(time_s, y);
    const bool is_work = view.potential(work) > 4.0;
    if (is_work && !was_work) ++closings;
    was_work = is_work;
    overlaps = overlaps || (is_work && view.potential(rest) > 4.0);
  }
  const network::Network& net;
  network::NodeId rest;
  network::NodeId work;
  int closings = 0;
  bool was_work = false;
  bool overlaps = false;
};

}  // namespace

TEST_CASE("given a dead coil, then common lies on rest, when it is fed, then on work") {
  Changeover build(small_relay());
  build.bench.go(0.01);
  CHECK(build.rest());
  CHECK_FALSE(build.work());
  CHECK(build.bench.reads("k1", "position") == 0.0);
  build.set(12.0);
  build.bench.go(0.05);
  CHECK_FALSE(build.rest());
  CHECK(build.work());
  CHECK(build.bench.reads("k1", "position") == 1.0);
  CHECK(relative_error(build.bench.reads("k1", "contact current"), 0.05) < 1e-3);
}

TEST_CASE(
    "given 12 V on the coil, then it picks up when its current has risen, and touches after "
    "its travel") {
  const Relay relay = small_relay();
  Changeover build(relay);
  build.bench.go(0.01);
  build.set(12.0);
  build.bench.go(0.05);
  // i = V/R (1 - exp(-t R/L)), L/R = 2 ms, threshold at 75 % of V/R: 2 ms ln 4; coil at 25 degC.
  const double share = 0.75 * relay.resistance_at(25_degC).si() / 400.0;
  const double l_over_r_s = 2e-3 * 400.0 / relay.resistance_at(25_degC).si();
  const double expected_s = -l_over_r_s * std::log(1.0 - share);
  const double picked_s = build.bench.said_s("k1", "picks up");
  CHECK(relative_error(picked_s - 0.01, expected_s) < 1e-3);
  CHECK(build.bench.said_s("k1", "contact touches the work side") ==
        doctest::Approx(picked_s + relay.travel.si()).epsilon(1e-9));
}

TEST_CASE("given bounce, then the contact closes three times, and never both at once") {
  for (const double bounce_s : {0.0, 1.5e-3}) {
    Relay relay = small_relay();
    relay.bounce = stated(Second::of_si(bounce_s));
    Changeover build(relay);
    build.bench.go(0.01);
    build.set(12.0);
    hybrid::Stepper stepper(
        build.bench.net, {}, 0.01,
        {build.bench.view().unknowns().begin(), build.bench.view().unknowns().end()});
    ContactWatch watch(build.bench.net, build.bench.point("rest"), build.bench.point("work"));
    REQUIRE(stepper.advance(0.05, watch).ended == hybrid::Ended::AtTime);
    CHECK(watch.closings == (bounce_s > 0.0 ? 3 : 1));
    CHECK_FALSE(watch.overlaps);
    CHECK(watch.was_work);
  }
}

TEST_CASE("given a sagging rail, then it lets go at its release voltage and not before") {
  Relay relay = small_relay();
  relay.release = stated(1.8_V);
  Changeover build(relay);
  build.set(12.0);
  build.bench.go(0.05);
  build.set(2.0);
  build.bench.go(0.5);
  CHECK(build.work());
  build.set(1.7);
  build.bench.go(0.5);
  CHECK(build.rest());
}

TEST_CASE("given the rail back in mid-travel, then it turns round and is back as soon as it came") {
  Relay relay = small_relay();
  relay.return_travel = stated(20_ms);
  relay.travel = stated(20_ms);
  relay.suppression = Suppression::Resistor;
  relay.suppression_resistor = stated(100_kOhm);
  relay.inductance = stated(Henry::of_si(0.04));  // L/R 0.1 ms: current follows voltage
  Changeover build(relay);
  build.set(12.0);
  build.bench.go(0.2);
  build.set(0.0);
  build.bench.go(0.010);
  CHECK(build.bench.reads("k1", "position") == 0.5);
  build.set(12.0);
  build.bench.go(0.2);
  CHECK(build.work());
  const double left_s = build.bench.said_s("k1", "lets go");
  const double turned_s =
      build.bench.said_s("k1", "is pulled again before its contacts have come to rest");
  const double back_s = build.bench.said_s("k1", "contact touches the work side");
  CHECK(left_s > 0.2);
  CHECK(back_s - turned_s == doctest::Approx(turned_s - left_s).epsilon(1e-6));
  CHECK(build.bench.times_said("k1", "contact touches the rest side") == 0);
}

TEST_CASE("given two poles, then both move together, each with its own terminals") {
  Relay relay = small_relay();
  relay.poles = 2;
  CHECK(relay.terminals().size() == 8);
  tests::PartBench bench;
  bench.net.add(tests::Source{}, {bench.point("coil"), network::reference_node}, "supply");
  bench.net.add(tests::Source{.volt_v = 5.0}, {bench.point("signal"), network::reference_node},
                "s");
  for (const char* side : {"work", "work2"}) {
    bench.net.add(Resistance{0.01}, {bench.point(side), network::reference_node}, side);
  }
  bench.install(relay, {{"coil_plus", "coil"},
                        {"coil_minus", "0"},
                        {"common", "signal"},
                        {"common2", "signal"},
                        {"work", "work"},
                        {"work2", "work2"}});
  bench.start();
  bench.go(0.05);
  CHECK(bench.volts("work") > 4.9);
  CHECK(bench.volts("work2") > 4.9);
  CHECK(bench.reads("k1", "contact current2") > 0.049);
}

TEST_CASE("given a series resistor, then the coil gets its share only") {
  Relay relay = small_relay();
  relay.series_resistor = stated(100_Ohm);
  Changeover build(relay);
  build.set(12.0);
  build.bench.go(0.05);
  CHECK(build.bench.reads("k1", "coil voltage") ==
        doctest::Approx(12.0 * 403.0 / 503.0).epsilon(2e-3));
}

TEST_CASE(
    "given a fed coil, then it stores half L i squared and nothing else in the relay stores any") {
  Changeover build(small_relay());
  build.set(12.0);
  build.bench.go(0.1);
  const auto stored_j = build.bench.net.stored_energy(build.bench.view().unknowns());
  const double current_a = build.bench.reads("k1", "coil current");
  CHECK(stored_j == doctest::Approx(0.5 * 0.8 * current_a * current_a).epsilon(1e-12));
}

TEST_CASE("given values that contradict each other, then each is named") {
  Relay relay = small_relay();
  CHECK(relay.contradictions().empty());
  relay.release = stated(10_V);
  CHECK(relay.contradictions().front() == "release: must lie below pick_up");
  relay = small_relay();
  relay.pick_up = stated(14_V);
  CHECK(relay.contradictions().front().starts_with("pick_up:"));
  relay = small_relay();
  relay.series_diodes = 2;
  relay.series_resistor = stated(10_Ohm);
  CHECK(relay.contradictions().front().starts_with("series_resistor:"));
}

TEST_CASE("given more across the open contacts than they are made for, then the rating says so") {
  Relay relay = small_relay();
  relay.contact_voltage = stated(4.0_V);
  Changeover at(relay);
  at.bench.go(0.1);
  // 5 V on common, nothing on the open work side.
  CHECK(at.bench.reads("k1", "voltage across open contacts") == doctest::Approx(5.0).epsilon(0.01));
  bool is_rated = false;
  for (const Rating& rating : at.bench.instruments.ratings) {
    is_rated = is_rated || (rating.name == "contact voltage" && rating.limit_si == 4.0);
  }
  CHECK(is_rated);
}

// What an adapter does on a rail: regulation, overload, loss and return of the mains, plugs.
#include "part/adapter/adapter.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "part/capacitor_law.hpp"
#include "part/load/load_draw.hpp"
#include "part/resistance.hpp"
#include "support/part_bench.hpp"

namespace {

using namespace tideover;
using namespace quantity;
using namespace quantity::literals;
using network::Stimulus;
using part::Adapter;
using part::AdapterStage;
using part::LoadDraw;
using part::Overload;
using tests::PartBench;
using tests::stated;
using What = network::Stimulus::What;

Adapter mains24() {
  Adapter adapter;
  adapter.name = "mains24";
  adapter.output = stated(24.0_V);
  adapter.rated = stated(1.5_A);
  return adapter;
}

/// An adapter with a resistance on its rail that a test may change.
struct LoadedAdapter {
  PartBench bench;
  network::Handle<part::Resistance> load;

  explicit LoadedAdapter(const Adapter& adapter, double load_ohm, double air_c = 25.0)
      : bench(air_c) {
    bench.install(adapter, {{"plus", "rail"}, {"minus", "0"}});
    load = bench.net.add(part::Resistance{1.0 / load_ohm},
                         {bench.point("rail"), network::reference_node}, "load");
    bench.start();
    bench.go(0.5);
  }
  [[nodiscard]] double volts() { return bench.volts("rail"); }
  [[nodiscard]] double amps() const { return bench.reads("mains24", "output current"); }
};

}  // namespace

TEST_CASE(
    "given an adapter within its rating, then its plug falls by its source resistance alone") {
  LoadedAdapter at(mains24(), 24.0);
  // The bleeder's 2 mA drop another 48 uV inside.
  CHECK(at.volts() == doctest::Approx(24.0 - 0.12 * at.amps()).epsilon(1e-5));
  CHECK(at.amps() == doctest::Approx(24.0 / (24.0 + 0.12)).epsilon(1e-3));
  CHECK(at.bench.reads("mains24", "share of rating") == doctest::Approx(at.amps() / 1.5));
}

TEST_CASE(
    "given a short circuit, when it limits its current, then a quarter above the rating flows") {
  LoadedAdapter at(mains24(), 0.01);
  CHECK(at.amps() == doctest::Approx(1.875).epsilon(1e-3));
  CHECK(at.volts() < 0.05);
}

TEST_CASE("given a short circuit, when it folds back, then less flows the lower its voltage") {
  Adapter adapter = mains24();
  adapter.overload = Overload::FoldBack;
  LoadedAdapter shorted(adapter, 0.01);
  // 30 % of 1.875 A, and what 0.2 V of lead drop adds along the fold.
  CHECK(shorted.amps() == doctest::Approx(0.5625).epsilon(0.02));
  LoadedAdapter half(adapter, 10.0);
  CHECK(half.amps() > shorted.amps());
  CHECK(half.amps() < 1.875);
}

TEST_CASE(
    "given a short circuit, when it hiccups, then it tries and pauses, and recovers by itself") {
  Adapter adapter = mains24();
  adapter.overload = Overload::Hiccup;
  LoadedAdapter at(adapter, 24.0);
  at.bench.net.law(at.load).conductance_s = 100.0;
  at.bench.stimulate({.what = What::AmbientTo});
  at.bench.go(5.0);
  // One try takes 20 ms of rise and 30 ms on, one pause 1 s: four or five rounds in 5 s.
  CHECK(at.bench.times_said("mains24", "is overloaded: pauses") >= 4);
  CHECK(at.bench.times_said("mains24", "is overloaded: pauses") <= 5);
  at.bench.net.law(at.load).conductance_s = 1.0 / 24.0;
  at.bench.stimulate({.what = What::AmbientTo});
  at.bench.go(2.0);
  CHECK(at.volts() == doctest::Approx(23.88).epsilon(1e-3));
}

TEST_CASE("given an adapter in overload, then its books still close at every instant") {
  LoadedAdapter at(mains24(), 5.0);
  std::vector<network::Ledger> books(at.bench.net.element_names().size());
  at.bench.net.ledgers(at.bench.view().unknowns(), books);
  double supplied = 0.0;
  double lost = 0.0;
  for (const auto& b : books) {
    supplied += b.supplied_w;
    lost += b.lost_w;
  }
  // Settled but for its warming body, which is no electrical store.
  CHECK(supplied > 15.0);
  CHECK(lost == doctest::Approx(supplied).epsilon(1e-6));
}

TEST_CASE(
    "given a device on the rail, when the mains goes, then the rail stands first and decays "
    "after") {
  LoadedAdapter at(mains24(), 16.0);
  at.bench.stimulate({.what = What::MainsLost, .word = "mains24"});
  at.bench.go(15e-3);
  CHECK(at.volts() == doctest::Approx(23.82).epsilon(1e-3));
  at.bench.go(2.0);
  const double empty =
      at.bench.said_s("mains24", "has used up what it had stored: its output falls");
  CHECK(empty - 0.5 == doctest::Approx(18e-3).epsilon(0.02));
  CHECK(at.volts() < 1e-6);
}

TEST_CASE("given an empty store, then the output capacitor decays by its capacitance and load") {
  Adapter adapter = mains24();
  adapter.hold_up = stated(0.0_s);
  adapter.back_drain = stated(0.0_A);
  LoadedAdapter at(adapter, 100.0);
  const double before = at.volts();
  at.bench.stimulate({.what = What::MainsLost});
  at.bench.go(68e-3);
  // 680 uF and 100 ohm (and 0.1 ohm of lead, 0.03 ohm of ESR): one time constant.
  CHECK(at.volts() / before == doctest::Approx(std::exp(-1.0)).epsilon(2e-3));
}

TEST_CASE("given a dip shorter than the hold-up, then the rail does not notice") {
  LoadedAdapter at(mains24(), 16.0);
  at.bench.stimulate({.what = What::MainsLost});
  at.bench.go(10e-3);
  at.bench.stimulate({.what = What::MainsBack});
  at.bench.go(1.0);
  CHECK(at.bench.said_s("mains24", "has used up what it had stored: its output falls") < 0.0);
  CHECK(at.volts() == doctest::Approx(23.82).epsilon(1e-3));
  CHECK(at.bench.reads("mains24", "stored energy") ==
        doctest::Approx(mains24().stage().full_j).epsilon(1e-6));
}

TEST_CASE(
    "given a long outage, when the mains is back, then the output waits, rises and stands again") {
  LoadedAdapter at(mains24(), 16.0);
  at.bench.stimulate({.what = What::MainsLost});
  at.bench.go(5.0);
  at.bench.stimulate({.what = What::MainsBack});
  const double back_s = at.bench.time_s();
  at.bench.go(0.49);
  CHECK(at.volts() < 1e-3);
  at.bench.go(0.02);
  CHECK(at.volts() > 8.0);
  CHECK(at.volts() < 16.0);
  at.bench.go(0.2);
  CHECK(at.volts() == doctest::Approx(23.82).epsilon(1e-3));
  CHECK(at.bench.said_s("mains24", "starts: its output rises") == doctest::Approx(back_s + 0.5));
}

TEST_CASE("given two adapters, when the mains of the other goes, then this one stays") {
  LoadedAdapter at(mains24(), 16.0);
  at.bench.stimulate({.what = What::MainsLost, .word = "mains12"});
  at.bench.go(1.0);
  CHECK(at.volts() == doctest::Approx(23.82).epsilon(1e-3));
}

TEST_CASE(
    "given a rail held by something else, then a dead adapter drains it, an unplugged one does "
    "not") {
  PartBench bench;
  bench.install(mains24(), {{"plus", "rail"}, {"minus", "0"}});
  bench.net.add(part::Capacitance{.capacitance_f = 100.0, .esr_ohm = 0.1},
                {bench.point("rail"), network::reference_node}, {{{"big", 24.0, 24.0}}}, "big");
  bench.start();
  bench.stimulate({.what = What::MainsLost});
  bench.go(10.0);
  // 2 mA at 24 V, stated; the store has been used up by its idle draw alone.
  CHECK(bench.reads("mains24", "output current") ==
        doctest::Approx(-2e-3 * bench.volts("rail") / 24.0).epsilon(0.01));
  bench.stimulate({.what = What::Unplugged, .word = "mains24"});
  bench.go(1.0);
  CHECK(std::abs(bench.reads("mains24", "output current")) < 1e-7);
  CHECK(bench.times_said("mains24", "is unplugged") == 1);
}

TEST_CASE("given a rail reversed by a wrong plug, then its rectifiers clamp it") {
  LoadedAdapter at(mains24(), 24.0);
  at.bench.stimulate({.what = What::MainsLost});
  at.bench.go(3.0);
  const AdapterStage& law = mains24().stage();
  const double u[3] = {-1.5, 0.0, 300.0};
  const double x[3] = {0.0, 1.0, -1.5};
  double flow[3];
  double rate[3];
  AdapterStage off = law;
  off.running = 0.0;
  off.mains = 0.0;
  off.equations(u, x, flow, rate);
  CHECK(flow[0] == doctest::Approx(-(1.5 - 0.7) / 0.05));
}

TEST_CASE("given a measured curve, then it counts in place of the label") {
  Adapter adapter = mains24();
  for (const auto& [v, i] :
       {std::pair{24.2, 0.0}, {24.0, 1.0}, {23.8, 1.6}, {18.0, 2.4}, {6.0, 2.0}}) {
    auto& point = adapter.curve.emplace_back();
    point.volts = stated(Volt::of_si(v));
    point.amps = stated(Ampere::of_si(i));
  }
  CHECK(adapter.contradictions().empty());
  REQUIRE(adapter.remarks().size() == 1);
  CHECK(adapter.remarks().front().starts_with("curve: its 5 readings count in place of output"));
  CHECK(adapter.remarks().front().ends_with("24.2 V at 0 A where output says 24 V"));
  CHECK(mains24().remarks().empty());
  LoadedAdapter light(adapter, 24.0);
  CHECK(light.volts() == doctest::Approx(24.0).epsilon(1e-4));
  LoadedAdapter heavy(adapter, 18.0 / 2.4);
  // The bleeder takes 1.5 mA of the 2.4 A.
  CHECK(heavy.volts() == doctest::Approx(18.0).epsilon(1e-3));
  LoadedAdapter shorted(adapter, 0.01);
  CHECK(shorted.amps() == doctest::Approx(2.0).epsilon(1e-3));
}

TEST_CASE("given hours of full load in hot air, then its body warms and its rating falls") {
  Adapter adapter = mains24();
  LoadedAdapter at(adapter, 16.5, 55.0);
  at.bench.go(8.0 * 3600.0);
  const double body_c = at.bench.reads("mains24", "body temperature") - 273.15;
  // 5 W of loss through 6 K/W, less the lead's share of the loss.
  CHECK(body_c > 80.0);
  CHECK(body_c < 88.0);
  CHECK(at.bench.reads("mains24", "share of rating") > 1.2);
}

TEST_CASE(
    "a body at the half-rating temperature leaves half the rating, and far below all of it "
    "exactly") {
  const AdapterStage law = mains24().stage();
  CHECK(law.rating_share(273.15 + 90.0) == doctest::Approx(0.5));
  CHECK(law.rating_share(273.15 + 60.0) == 1.0);
  CHECK(law.rating_share(273.15 + 300.0) == doctest::Approx(0.1));
}

TEST_CASE("at its rating an adapter takes from the mains what its efficiency says") {
  PartBench bench;
  bench.install(mains24(), {{"plus", "rail"}, {"minus", "0"}});
  bench.net.add(LoadDraw{.current_a = 1.5, .resistive_below_v = 6.0},
                {bench.point("rail"), network::reference_node}, "device");
  bench.start();
  bench.go(1.0);
  std::vector<network::Ledger> books(bench.net.element_names().size());
  bench.net.ledgers(bench.view().unknowns(), books);
  double supplied = 0.0;
  for (const auto& b : books) supplied += b.supplied_w;
  // Stated at 24 V x 1.5 A; at the plug it stands 0.18 V lower, and its bleeder takes 2 mA.
  CHECK(36.0 / supplied == doctest::Approx(0.87).epsilon(0.01));
}

TEST_CASE("an earthed adapter's minus stands at its earth, another's does not") {
  for (const bool earthed : {true, false}) {
    Adapter adapter = mains24();
    adapter.earthed = earthed;
    PartBench bench;
    bench.install(adapter, {{"plus", "rail"}, {"minus", "common"}, {"earth", "0"}});
    bench.net.add(part::Resistance{1e-3}, {bench.point("rail"), network::reference_node}, "stray");
    bench.start();
    bench.go(0.1);
    CHECK((bench.volts("common") > -1e-2) == earthed);
  }
}

TEST_CASE("an adapter says what is wrong between its values") {
  Adapter adapter = mains24();
  CHECK(adapter.contradictions().empty());
  adapter.limit = stated(1.0_A);
  adapter.lead_resistance = stated(1.0_Ohm);
  adapter.half_at = stated(60.0_degC);
  adapter.curve.emplace_back().volts = stated(10.0_V);
  CHECK(adapter.contradictions() ==
        std::vector<std::string>{
            "lead_resistance: is a part of source_resistance and must be less",
            "limit: lies below the rated current", "half_at: must lie above full_up_to",
            "curve: takes two readings or more",
            "curve: its highest voltage is more than a tenth off the stated output"});
}

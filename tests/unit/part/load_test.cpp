// What a device does with the voltage it is given.
#include "part/load/load.hpp"

#include <doctest/doctest.h>

#include "part/pack/pack.hpp"
#include "part/protection_board/protection_board.hpp"
#include "support/part_bench.hpp"
#include "support/shelf_cell.hpp"

namespace {

using namespace tideover;
using namespace quantity;
using namespace quantity::literals;
using network::Fact;
using network::Stimulus;
using part::Load;
using part::ProfileStretch;
using tests::BenchSupply;
using tests::PartBench;
using tests::stated;

ProfileStretch stretch(const std::string& name, Watt draws, Second lasts) {
  ProfileStretch one;
  one.name = name;
  one.draws = stated(draws);
  one.lasts = stated(lasts);
  return one;
}

/// Listens at 2 W for 5 s, sends at 8 W for 1 s; at night it sleeps at 0.5 W.
Load radio() {
  Load load;
  load.name = "radio";
  load.accepts = {10.0_V, 15.0_V};
  load.profile = {stretch("day", 2.0_W, 5.0_s), stretch("day", 8.0_W, 1.0_s),
                  stretch("night", 0.5_W, 60.0_s)};
  return load;
}

struct Setup {
  PartBench bench;
  network::Handle<BenchSupply> supply;

  explicit Setup(const Load& load, double volts = 12.0) {
    bench.install(load, {{"plus", "rail"}, {"minus", "0"}});
    supply = bench.net.add(BenchSupply{volts, 0.01}, {bench.point("rail"), network::reference_node},
                           "supply");
    bench.start();
    bench.go(0.01);
  }
  void supply_gives(double volts) {
    bench.net.law(supply).volts = volts;
    bench.disturbed();
  }
  [[nodiscard]] double watts() { return bench.volts("rail") * bench.reads("radio", "current"); }
  [[nodiscard]] double next_wake_s() const { return bench.net.next_wake_s(); }
};

}  // namespace

TEST_CASE("given a profile, then its stretches follow each other round and round") {
  Setup at(radio());
  CHECK(at.watts() == doctest::Approx(2.0).epsilon(1e-6));
  at.bench.go(5.5);
  CHECK(at.watts() == doctest::Approx(8.0).epsilon(1e-6));
  at.bench.go(1.0);
  CHECK(at.watts() == doctest::Approx(2.0).epsilon(1e-6));
}

TEST_CASE("given a load that is off, then its profile rests, and begins anew when it starts up") {
  Load load = radio();
  load.boot = stated(3.0_s);
  Setup at(load);
  at.bench.go(5.5);
  at.supply_gives(0.0);
  at.bench.go(20.0);
  CHECK(at.bench.is("radio", Fact::Lost));
  CHECK(at.next_wake_s() == network::no_wake);
  at.supply_gives(12.0);
  at.bench.go(0.5);
  CHECK(at.bench.is("radio", Fact::Lost));
  CHECK(at.watts() == doctest::Approx(2.0).epsilon(1e-6));
  at.bench.go(4.0);
  CHECK(at.bench.is("radio", Fact::Served));
  CHECK(at.watts() == doctest::Approx(2.0).epsilon(1e-6));
  at.bench.go(1.0);
  CHECK(at.watts() == doctest::Approx(8.0).epsilon(1e-6));
}

TEST_CASE("given another profile while it is off, then it starts up with that one") {
  Setup at(radio());
  at.supply_gives(0.0);
  at.bench.go(20.0);
  at.bench.stimulate({.what = Stimulus::What::ProfileTo, .word = "night"});
  CHECK(at.next_wake_s() == network::no_wake);
  at.supply_gives(12.0);
  at.bench.go(0.1);
  CHECK(at.watts() == doctest::Approx(0.5).epsilon(1e-6));
}

TEST_CASE("given a load that pulls its own input out of range, then it tries, ten times a second") {
  // 10 V under 8 W: 12 V behind 4 ohm hold 8.5 V with the load on, 12 V without.
  Load load = radio();
  load.profile = {stretch("day", 8.0_W, 1.0_h)};
  PartBench bench;
  bench.install(load, {{"plus", "rail"}, {"minus", "0"}});
  bench.net.add(BenchSupply{12.0, 4.0}, {bench.point("rail"), network::reference_node}, "supply");
  bench.start();
  bench.go(10.0);
  CHECK(bench.times_said("radio", "is lost") <= 100);
  CHECK(bench.times_said("radio", "is lost") >= 90);
}

TEST_CASE("given a profile it does not have, then it keeps the one it has") {
  Setup at(radio());
  at.bench.stimulate({.what = Stimulus::What::ProfileTo, .word = "holidays"});
  at.bench.go(5.5);
  CHECK(at.watts() == doctest::Approx(8.0).epsilon(1e-6));
}

TEST_CASE("given a load that is off, then it draws its off draw as a resistance") {
  Setup at(radio());
  at.supply_gives(5.0);
  at.bench.go(0.1);
  REQUIRE(at.bench.is("radio", Fact::Lost));
  // 1 mA at 10 V.
  CHECK(at.bench.reads("radio", "current") == doctest::Approx(0.5e-3).epsilon(1e-6));
}

TEST_CASE("given a board that waits for the load to be taken off, one that is off is still there") {
  part::Pack pack;
  pack.name = "pack";
  pack.cell = tests::shelf_cell("nmc-21700-4000");
  pack.series = 3;
  pack.charge = stated(1.5_percent);
  part::ProtectionBoard board;
  board.name = "board";
  board.series = 3;
  board.under_voltage_released_by = part::UnderVoltageRelease::LoadRemoval;
  Load load = radio();
  load.accepts = {6.0_V, 15.0_V};
  load.profile = {stretch("day", 20.0_W, 1.0_h)};
  PartBench bench;
  bench.install(pack, {{"plus", "plus"}, {"tap1", "t1"}, {"tap2", "t2"}, {"minus", "b_minus"}});
  bench.install(board, {{"b_plus", "plus"},
                        {"tap1", "t1"},
                        {"tap2", "t2"},
                        {"b_minus", "b_minus"},
                        {"p_minus", "0"}});
  bench.install(load, {{"plus", "plus"}, {"minus", "0"}});
  bench.start();
  bench.go(600.0);
  REQUIRE(bench.is("radio", Fact::Lost));
  CHECK(bench.times_said("board", "lets the pack discharge again") == 0);
  CHECK(bench.is("board", Fact::CutOff));
}

TEST_CASE("given more than it accepts, a load is not served though it still draws") {
  Load load = radio();
  load.rides = stated(10.0_ms);
  load.boot = stated(3.0_s);
  Setup at(load);
  at.bench.go(4.0);
  CHECK(at.bench.is("radio", Fact::Served));
  at.supply_gives(16.0);
  at.bench.go(0.005);
  CHECK(at.bench.is("radio", Fact::Served));
  at.bench.go(0.02);
  CHECK_FALSE(at.bench.is("radio", Fact::Served));
  CHECK(at.watts() > 1.0);
  CHECK(at.bench.times_said("radio", "gets more voltage than it accepts") == 1);
  at.supply_gives(12.0);
  at.bench.go(1.0);
  CHECK_FALSE(at.bench.is("radio", Fact::Served));
  at.bench.go(3.0);
  CHECK(at.bench.is("radio", Fact::Served));
}

TEST_CASE("a load that restarts is lost for a while and not gone") {
  Load load = radio();
  load.boot = stated(30.0_s);
  Setup at(load);
  at.bench.go(40.0);
  REQUIRE(at.bench.is("radio", Fact::Served));
  at.supply_gives(0.0);
  at.bench.go(1.0);
  at.supply_gives(12.0);
  at.bench.go(5.0);
  CHECK(at.bench.is("radio", Fact::Lost));
  CHECK_FALSE(at.bench.is("radio", Fact::Gone));
  at.bench.go(30.0);
  CHECK(at.bench.is("radio", Fact::Served));
  // Ten seconds more than its boot takes, and it is.
  at.supply_gives(0.0);
  at.bench.go(39.0);
  CHECK_FALSE(at.bench.is("radio", Fact::Gone));
  at.bench.go(2.0);
  CHECK(at.bench.is("radio", Fact::Gone));
}

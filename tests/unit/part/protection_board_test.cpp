#include "part/protection_board/protection_board.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "part/capacitor_law.hpp"
#include "part/pack/pack.hpp"
#include "part/resistance.hpp"
#include "support/part_bench.hpp"
#include "support/shelf_cell.hpp"

using namespace tideover;
using namespace tideover::tests;
using namespace tideover::quantity::literals;
using network::Fact;

namespace {

part::Pack pack_of(int series, double charge) {
  part::Pack pack;
  pack.name = "pack";
  pack.cell = shelf_cell("nmc-21700-4000");
  pack.series = series;
  pack.charge = stated(quantity::Ratio::of_si(charge));
  return pack;
}

part::ProtectionBoard board_of(int series) {
  part::ProtectionBoard board;
  board.name = "board";
  board.series = series;
  return board;
}

const char* const lets_discharge = "lets the pack discharge again";
const char* const lets_charge = "lets the pack charge again";

/// Pack and board; between "plus" and "0" (p_minus) a load resistor and a charging supply.
struct Supply {
  PartBench bench;
  network::Handle<part::Resistance> load;
  network::Handle<ChargingSupply> charger;

  Supply(const part::Pack& pack, const part::ProtectionBoard& board, double air_c = 25.0)
      : bench(air_c) {
    std::map<std::string, std::string> at_pack{{"plus", "plus"}, {"minus", "b_minus"}};
    std::map<std::string, std::string> at_board{
        {"b_plus", "plus"}, {"b_minus", "b_minus"}, {"p_minus", "0"}};
    for (int k = 1; k < pack.series; ++k) {
      const std::string tap = "tap" + std::to_string(k);
      at_pack[tap] = at_board[tap] = tap;
    }
    bench.install(pack, at_pack);
    bench.install(board, at_board);
    const auto plus = bench.point("plus");
    load = bench.net.add(part::Resistance{}, {plus, network::reference_node}, "load");
    charger = bench.net.add(ChargingSupply{.set_v = 0.0, .limit_a = 2.0, .on = 0.0},
                            {plus, network::reference_node}, "charger");
    bench.net.add(part::Capacitance{.capacitance_f = 100e-6}, {plus, network::reference_node},
                  {{{"capacitor", 0.0, 10.0}}}, "capacitor");
    bench.start();
  }
  /// 0 takes the load off.
  void connect_load(double ohms) {
    bench.net.law(load).conductance_s = ohms > 0.0 ? 1.0 / ohms : part::open_conductance_s;
    bench.disturbed();
  }
  void connect_charger(double volts, double limit_a) {
    bench.net.law(charger) = {.set_v = volts, .limit_a = limit_a, .on = 1.0};
    bench.disturbed();
  }
  void remove_charger() {
    bench.net.law(charger).on = 0.0;
    bench.disturbed();
  }
  /// Cuts of the discharge path by any empty group.
  int cuts_as_empty() const {
    int count = 0;
    for (int k = 1; k <= 5; ++k) {
      count += said("cuts the discharge path: group " + std::to_string(k) + " is empty");
    }
    return count;
  }
  /// Until `words` have been said once more; false if not within `patience_s`.
  bool go_until(const std::string& words, double patience_s, double look_s) {
    const int before = said(words);
    for (double gone = 0.0; gone < patience_s; gone += look_s) {
      bench.go(look_s);
      if (said(words) > before) return true;
    }
    return false;
  }
  int said(const std::string& words) const { return bench.times_said("board", words); }
  bool is_cut() const { return bench.is("board", Fact::CutOff); }
  double volts() { return bench.volts("plus"); }
  double current_a() const { return bench.reads("board", "discharge current"); }
};

}  // namespace

TEST_CASE("given a sound pack and a load, then the board only adds its resistance") {
  Supply s(pack_of(5, 0.6), board_of(5));
  s.bench.go(1.0);
  s.connect_load(9.0);
  s.bench.go(1.0);
  CHECK(s.current_a() == doctest::Approx(s.volts() / 9.0).epsilon(1e-3));
  CHECK(s.bench.volts("b_minus") == doctest::Approx(-0.010 * s.current_a()).epsilon(1e-3));
  CHECK_FALSE(s.is_cut());
  CHECK(s.bench.marks.empty());
}

TEST_CASE(
    "given a discharge with a weak group, then the board cuts on that group after its delay") {
  part::Pack pack = pack_of(5, 0.3);
  pack.groups.resize(5);
  pack.groups[2].charge = stated(5.0_percent);
  part::ProtectionBoard board = board_of(5);
  board.under_voltage_released_by = part::UnderVoltageRelease::Charger;
  Supply s(pack, board);
  s.connect_load(9.0);
  REQUIRE(s.go_until("cuts the discharge path: group 3 is empty", 3600.0, 1.0));
  CHECK(s.is_cut());
  CHECK(std::abs(s.current_a()) < 1e-3);
  CHECK(s.bench.reads("pack", "group 1 voltage") > 3.3);
  // The group recovers by itself above the release voltage, yet the board waits for a charger.
  s.bench.go(3600.0);
  CHECK(s.bench.reads("pack", "group 3 voltage") > 2.9);
  CHECK(s.is_cut());
  CHECK(s.said(lets_discharge) == 0);

  // A charger pushes through the body diode first; then the MOSFET closes.
  s.connect_charger(21.0, 4.0);
  CHECK(s.go_until(lets_discharge, 600.0, 0.1));
  CHECK_FALSE(s.is_cut());
}

TEST_CASE(
    "given a board that lets go on voltage alone, then an empty pack under load cuts, rebounds "
    "and cuts again") {
  part::ProtectionBoard board = board_of(5);
  board.under_voltage_release = stated(2.90_V);
  Supply s(pack_of(5, 0.02), board);
  s.connect_load(4.0);
  s.bench.go(1800.0);
  const int cuts = s.cuts_as_empty();
  const int releases = s.said(lets_discharge);
  CHECK(cuts >= 3);
  CHECK(std::abs(cuts - releases) <= 1);
  // Every round takes charge out until the rebound no longer reaches the release voltage.
  s.bench.go(6.0 * 3600.0);
  const int later = s.cuts_as_empty();
  s.bench.go(6.0 * 3600.0);
  CHECK(s.cuts_as_empty() == later);
  CHECK(s.is_cut());
}

TEST_CASE("given release on load removal, then the load must go before an empty pack comes back") {
  part::ProtectionBoard board = board_of(3);
  board.under_voltage_released_by = part::UnderVoltageRelease::LoadRemoval;
  board.under_voltage_release = stated(2.90_V);
  Supply s(pack_of(3, 0.02), board);
  s.connect_load(3.0);
  while (s.cuts_as_empty() == 0 && s.bench.time_s() < 3600.0) s.bench.go(0.5);
  REQUIRE(s.is_cut());
  s.bench.go(1800.0);
  CHECK(s.is_cut());
  CHECK(s.said(lets_discharge) == 0);
  s.connect_load(0.0);
  // The rail's 100 uF charge through the 100 kOhm by which the board feels the load: 10 s.
  s.bench.go(60.0);
  CHECK_FALSE(s.is_cut());
}

TEST_CASE(
    "given a charger that goes too high, then the fullest group ends the charge, and a full "
    "pack takes no current until it has been drained") {
  part::Pack pack = pack_of(3, 0.90);
  pack.groups.resize(3);
  pack.groups[1].charge = stated(96.0_percent);
  part::ProtectionBoard board = board_of(3);
  board.over_voltage_released_by = part::OverVoltageRelease::Voltage;
  Supply s(pack, board);
  s.connect_charger(13.5, 1.0);
  REQUIRE(s.go_until("cuts the charge path: group 2 is full", 7200.0, 5.0));
  CHECK(s.bench.is("board", Fact::Full));
  CHECK_FALSE(s.is_cut());
  s.bench.go(1800.0);
  CHECK(std::abs(s.current_a()) < 1e-3);

  // The charger goes off: the load is fed through the body diode of the charge MOSFET.
  s.remove_charger();
  s.connect_load(6.0);
  s.bench.go(1.0);
  CHECK(s.current_a() > 1.5);
  CHECK(s.bench.volts("b_minus") == doctest::Approx(-0.75).epsilon(0.1));
  REQUIRE(s.go_until(lets_charge, 7200.0, 1.0));
  CHECK(s.bench.reads("pack", "group 2 voltage") < 4.101);
  CHECK(s.bench.volts("b_minus") > -0.05);
}

TEST_CASE("given release by a load, then the body diode carries it for a moment only") {
  Supply s(pack_of(3, 0.97), board_of(3));
  s.connect_charger(13.5, 1.0);
  while (!s.bench.is("board", Fact::Full) && s.bench.time_s() < 7200.0) s.bench.go(5.0);
  REQUIRE(s.bench.is("board", Fact::Full));
  s.bench.go(60.0);
  s.remove_charger();
  s.connect_load(6.0);
  s.bench.go(0.02);
  CHECK(s.bench.volts("b_minus") < -0.5);
  CHECK(s.go_until(lets_charge, 10.0, 0.02));
  s.bench.go(1.0);
  CHECK(s.bench.volts("b_minus") > -0.05);
}

TEST_CASE("given a charger that stays below the balancing voltage, then no group is ever bled") {
  part::Pack pack = pack_of(3, 0.5);
  pack.groups.resize(3);
  pack.groups[0].charge = stated(55.0_percent);
  part::ProtectionBoard board = board_of(3);
  board.balances = part::Balances::Always;
  Supply s(pack, board);
  s.connect_charger(3.0 * 4.05, 1.0);
  s.bench.go(8.0 * 3600.0);
  CHECK(s.bench.marks.empty());
  CHECK(s.bench.reads("pack", "group 1 voltage") > s.bench.reads("pack", "group 2 voltage") + 0.02);
}

TEST_CASE("given a charger at full voltage, then bleeding brings the groups together") {
  part::Pack pack = pack_of(3, 0.90);
  pack.groups.resize(3);
  pack.groups[0].charge = stated(93.0_percent);
  part::ProtectionBoard board = board_of(3);
  board.balances = part::Balances::Always;
  board.balance_start = stated(4.21_V);
  Supply s(pack, board);
  s.connect_charger(12.6, 0.5);
  REQUIRE(s.go_until("bleeds group 1", 3600.0, 5.0));
  CHECK(s.said("bleeds group 2") == 0);
  const double apart_v =
      s.bench.reads("pack", "group 1 voltage") - s.bench.reads("pack", "group 2 voltage");
  s.bench.go(10.0 * 3600.0);
  const double later_v =
      s.bench.reads("pack", "group 1 voltage") - s.bench.reads("pack", "group 2 voltage");
  CHECK(later_v < 0.5 * apart_v);
}

TEST_CASE("given balancing while charging only, then it ends with the charge") {
  part::ProtectionBoard board = board_of(2);
  board.balances = part::Balances::WhileCharging;
  board.balance_start = stated(4.10_V);
  Supply s(pack_of(2, 0.93), board);
  s.bench.go(60.0);
  CHECK(s.said("bleeds group 1") == 0);
  s.connect_charger(8.3, 0.5);
  REQUIRE(s.go_until("bleeds group 1", 60.0, 1.0));
  s.remove_charger();
  CHECK(s.go_until("stops bleeding group 1", 5.0, 0.1));
}

TEST_CASE("given a current above the limit, then it may last as long as the delay and no longer") {
  part::ProtectionBoard board = board_of(3);
  board.discharge_over_current = stated(8.0_A);
  board.short_circuit = stated(40.0_A);
  board.discharge_over_current_delay = stated(0.2_s);
  Supply s(pack_of(3, 0.9), board);
  s.bench.go(1.0);
  s.connect_load(1.2);
  s.bench.go(0.15);
  s.connect_load(6.0);
  s.bench.go(5.0);
  CHECK(s.bench.marks.empty());  // a short peak is let through
  const double begin_s = s.bench.time_s();
  s.connect_load(1.2);
  REQUIRE(s.go_until("cuts the discharge path: over-current", 1.0, 0.01));
  CHECK(s.bench.said_s("board", "cuts the discharge path: over-current") - begin_s ==
        doctest::Approx(0.2).epsilon(1e-3));
  s.bench.go(60.0);
  CHECK(s.is_cut());
  s.connect_load(0.0);
  s.bench.go(60.0);
  CHECK_FALSE(s.is_cut());
}

TEST_CASE("given a short circuit, then the board opens within its short delay") {
  Supply s(pack_of(3, 0.9), board_of(3));
  s.bench.go(1.0);
  const double begin_s = s.bench.time_s();
  s.connect_load(0.02);
  s.bench.go(0.001);
  CHECK(s.bench.said_s("board", "cuts the discharge path: short circuit") - begin_s ==
        doctest::Approx(300e-6).epsilon(1e-2));
  CHECK(std::abs(s.current_a()) < 1e-3);
}

TEST_CASE("given a board that tries again by itself, then a lasting short is tried at its pace") {
  part::ProtectionBoard board = board_of(3);
  board.fault_released_by = part::FaultRelease::Waiting;
  board.fault_wait = stated(2.0_s);
  Supply s(pack_of(3, 0.9), board);
  s.bench.go(1.0);
  s.connect_load(0.02);
  s.bench.go(21.0);
  CHECK(s.said("cuts the discharge path: short circuit") == 11);
  s.connect_load(20.0);
  s.bench.go(3.0);
  CHECK_FALSE(s.is_cut());
}

TEST_CASE("given a charger that gives too much, then charging stops until it is taken away") {
  part::ProtectionBoard board = board_of(3);
  board.charge_over_current = stated(2.0_A);
  Supply s(pack_of(3, 0.3), board);
  s.connect_charger(12.3, 3.0);
  REQUIRE(s.go_until("cuts the charge path: over-current", 1.0, 0.01));
  s.bench.go(60.0);
  CHECK(std::abs(s.current_a()) < 1e-3);
  s.remove_charger();
  s.connect_load(1000.0);  // something must empty the rail's capacitor
  CHECK(s.go_until(lets_charge, 1.0, 0.02));
}

TEST_CASE("given frost, then a board with a sensor takes no charge and still serves the load") {
  part::ProtectionBoard board = board_of(3);
  board.has_temperature_sensor = true;
  Supply s(pack_of(3, 0.5), board, -5.0);
  s.bench.go(10.0);
  CHECK(s.said("cuts the charge path: too cold") == 1);
  s.connect_charger(12.3, 1.0);
  s.bench.go(60.0);
  CHECK(std::abs(s.current_a()) < 1e-3);
  s.remove_charger();
  s.connect_load(6.0);
  s.bench.go(60.0);
  CHECK(s.current_a() > 1.5);
}

TEST_CASE("a board left alone drains the pack for months, and less once it has cut") {
  part::ProtectionBoard board = board_of(3);
  board.drain = stated(100.0_uA);
  board.drain_when_cut = stated(1.0_uA);
  part::Pack pack = pack_of(3, 0.5);
  pack.cell.self_discharge = stated(0.0_percent);
  Supply s(pack, board);
  s.bench.go(100.0 * 86400.0);
  // 100 uA for 2400 h are 0.24 Ah of 3.95 Ah.
  CHECK(s.bench.reads("pack", "charge") == doctest::Approx(0.5 - 0.24 / 3.95).epsilon(1e-3));
}

TEST_CASE("a board tells what contradicts itself, and which terminals it has") {
  part::ProtectionBoard board = board_of(4);
  CHECK(board.contradictions().empty());
  CHECK(board.terminals().size() == 6);
  board.over_voltage_release = stated(4.30_V);
  board.under_voltage_release = stated(2.5_V);
  board.short_circuit = stated(20.0_A);
  board.balances = part::Balances::Always;
  board.balance_start = stated(4.26_V);
  CHECK(board.contradictions().size() == 4);
}

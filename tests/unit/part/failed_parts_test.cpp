// What a part does once it has failed by one of its modes that alter it.
#include <cmath>

#include <doctest/doctest.h>

#include "part/adapter/adapter.hpp"
#include "part/box/box.hpp"
#include "part/charger/charger.hpp"
#include "part/converter/converter.hpp"
#include "part/fan/fan.hpp"
#include "part/fuse/fuse.hpp"
#include "part/ideal_diode/ideal_diode.hpp"
#include "part/pack/pack.hpp"
#include "part/protection_board/protection_board.hpp"
#include "part/resistance.hpp"
#include "part/switch/switch.hpp"
#include "support/failing_parts.hpp"
#include "support/part_bench.hpp"
#include "support/shelf_cell.hpp"

namespace {

using namespace tideover;
using namespace quantity;
using namespace quantity::literals;
using namespace tests;
using part::Pack;
using part::ProtectionBoard;

Pack pack_of_two(double charge, int parallel = 1) {
  Pack pack;
  pack.name = "pack";
  pack.cell = shelf_cell("nmc-21700-4000");
  pack.series = 2;
  pack.parallel = parallel;
  pack.charge = stated(Ratio::of_si(charge));
  return pack;
}

ProtectionBoard board_of_two() {
  ProtectionBoard board;
  board.name = "board";
  board.series = 2;
  board.balances = part::Balances::Always;
  board.under_voltage_released_by = part::UnderVoltageRelease::Charger;
  return board;
}

/// Pack and board for ten minutes on a supply, which charges where it stands above the pack and
/// draws where it stands below.
struct TenMinutesOn {
  TenMinutesOn(const BenchSupply& supply, double charge, const ProtectionBoard& board) {
    bench.install(pack_of_two(charge), {{"plus", "plus"}, {"tap1", "tap1"}, {"minus", "b_minus"}});
    bench.install(board,
                  {{"b_plus", "plus"}, {"tap1", "tap1"}, {"b_minus", "b_minus"}, {"p_minus", "0"}});
    bench.net.add(supply, {bench.point("plus"), network::reference_node}, "supply");
    bench.start();
    bench.go(600.0);
  }
  [[nodiscard]] double discharge_a() const { return bench.reads("board", "discharge current"); }
  PartBench bench;
};

constexpr BenchSupply overcharging{.volts = 9.4, .ohms = 1.0};
constexpr BenchSupply emptying{.volts = 0.0, .ohms = 5.0};
constexpr double nothing_a = 0.01;

}  // namespace

TEST_CASE(
    "given a shorted charge transistor, then a full pack is charged on, and a discharge cut") {
  const ProtectionBoard sound = board_of_two();
  const ProtectionBoard shorted = failed(sound, "charge transistor shorted");
  CHECK(std::abs(TenMinutesOn(overcharging, 0.98, sound).discharge_a()) < nothing_a);
  CHECK(TenMinutesOn(overcharging, 0.98, shorted).discharge_a() < -0.1);
  CHECK(std::abs(TenMinutesOn(emptying, 0.02, shorted).discharge_a()) < nothing_a);
}

TEST_CASE("given a shorted discharge transistor, then an empty pack is emptied on") {
  const ProtectionBoard sound = board_of_two();
  const ProtectionBoard shorted = failed(sound, "discharge transistor shorted");
  CHECK(std::abs(TenMinutesOn(emptying, 0.02, sound).discharge_a()) < nothing_a);
  CHECK(TenMinutesOn(emptying, 0.02, shorted).discharge_a() > 0.1);
  CHECK(std::abs(TenMinutesOn(overcharging, 0.98, shorted).discharge_a()) < nothing_a);
}

TEST_CASE("given a board that does not watch, then nothing is cut either way") {
  const ProtectionBoard blind = failed(board_of_two(), "does not watch");
  CHECK(TenMinutesOn(overcharging, 0.98, blind).discharge_a() < -0.1);
  CHECK(TenMinutesOn(emptying, 0.02, blind).discharge_a() > 0.1);
}

TEST_CASE("given one direction stuck off, then only the other one flows") {
  const ProtectionBoard no_discharge = failed(board_of_two(), "discharge stuck off");
  CHECK(std::abs(TenMinutesOn(emptying, 0.5, no_discharge).discharge_a()) < nothing_a);
  CHECK(TenMinutesOn(overcharging, 0.5, no_discharge).discharge_a() < -0.1);
  const ProtectionBoard no_charge = failed(board_of_two(), "charge stuck off");
  CHECK(std::abs(TenMinutesOn(overcharging, 0.5, no_charge).discharge_a()) < nothing_a);
  CHECK(TenMinutesOn(emptying, 0.5, no_charge).discharge_a() > 0.1);
}

TEST_CASE("given a tap off the board, then it takes one group for empty, the next for full") {
  const TenMinutesOn run({.volts = 7.4, .ohms = 1.0}, 0.5, failed(board_of_two(), "tap 1 off"));
  CHECK(run.bench.said_s("board", "cuts the discharge path: group 1 is empty") >= 0.0);
  CHECK(run.bench.said_s("board", "cuts the charge path: group 2 is full") >= 0.0);
  CHECK(std::abs(run.discharge_a()) < nothing_a);
}

TEST_CASE("given a cell come off, then its group has less to give and sags more") {
  const Pack sound = pack_of_two(0.5, 2);
  const Pack broken = failed(sound, "cell open");
  CHECK(broken.group_capacity(1).si() == doctest::Approx(0.5 * sound.group_capacity(1).si()));
  CHECK(broken.group_capacity(2).si() == sound.group_capacity(2).si());
  PartBench bench;
  bench.install(broken, {{"plus", "plus"}, {"tap1", "tap1"}, {"minus", "0"}});
  bench.net.add(ConstantCurrent{2.0}, {bench.point("plus"), network::reference_node}, "load");
  bench.start();
  bench.go(1.0);
  CHECK(bench.reads("pack", "group 1 voltage") < bench.reads("pack", "group 2 voltage") - 0.01);
}

TEST_CASE("given a leaking group, then in a month it loses what sound ones lose in ten") {
  const Pack leaking = failed(pack_of_two(1.0), "group leaks");
  PartBench bench;
  bench.install(leaking, {{"plus", "plus"}, {"minus", "0"}});
  bench.start();
  bench.go(30.0 * 86400.0);
  // The law fades self-discharge out within 1 % of empty and holds the far end exact.
  const double left = std::pow(1.0 - leaking.cell.self_discharge.si(), 10.0);
  CHECK(bench.reads("pack", "charge") == doctest::Approx(left).epsilon(0.01));
}

TEST_CASE("given two groups of which one has less, then it is the poorer one that fails") {
  Pack pack = pack_of_two(0.8);
  pack.groups.resize(2);
  pack.groups[1].capacity = stated(3.0_Ah);
  CHECK(pack.poorest_group() == 2);
  CHECK(failed(pack, "weak group").group_capacity(2).si() ==
        doctest::Approx(2.0 / 3.0 * pack.group_capacity(2).si()));
  CHECK(failed(pack, "group behind").start_charge(2).si() == doctest::Approx(0.7));
  CHECK(failed(pack, "group behind").start_charge(1).si() == doctest::Approx(0.8));
}

TEST_CASE("given a step-up that has stopped, then its load gets its input less a diode's drop") {
  part::Converter up;
  up.name = "up";
  up.topology = part::Topology::StepUp;
  up.output = stated(12.0_V);
  up.rated = stated(1.0_A);
  up.accepts = {3.0_V, 11.5_V};
  PartBench bench;
  bench.install(failed(up, "stopped"),
                {{"in_plus", "in"}, {"in_minus", "0"}, {"out_plus", "out"}, {"out_minus", "0"}});
  bench.net.add(BenchSupply{.volts = 8.0}, {bench.point("in"), network::reference_node}, "supply");
  bench.net.add(part::Resistance{1.0 / 10.0}, {bench.point("out"), network::reference_node},
                "load");
  bench.start();
  bench.go(1.0);
  // 0.45 V of a Schottky diode and 0.1 ohm in the way of some 0.75 A; its corner is rounded.
  CHECK(bench.volts("out") == doctest::Approx(8.0 - 0.45 - 0.075).epsilon(0.02));
}

TEST_CASE("given a measured converter, when its adjustment slips, then its losses stay as read") {
  part::Converter down;
  down.output = stated(5.0_V);
  down.rated = stated(2.0_A);
  part::MeasuredPoint point;
  point.input = stated(12.0_V);
  point.input_current = stated(0.46_A);
  point.output_current = stated(1.0_A);
  down.measured = {point};
  const part::Converter high = failed(down, "set too high");
  CHECK(high.set_point().voltage.si() == doctest::Approx(5.5));
  CHECK(high.losses().losses.linear.si() == doctest::Approx(down.losses().losses.linear.si()));
}

TEST_CASE("given an ideal diode whose controller is dead, then it drops what a silicon one does") {
  part::IdealDiode diode;
  diode.name = "d1";
  PartBench bench;
  bench.install(failed(diode, "controller dead"), {{"anode", "in"}, {"cathode", "out"}});
  bench.net.add(BenchSupply{}, {bench.point("in"), network::reference_node}, "supply");
  bench.net.add(part::Resistance{1.0 / 12.0}, {bench.point("out"), network::reference_node},
                "load");
  bench.start();
  bench.go(1.0);
  const double drop_v = bench.volts("in") - bench.volts("out");
  CHECK(drop_v > 0.5);
  CHECK(drop_v < 1.0);
}

TEST_CASE("given a stuck handle, when it is told to move, then the switch stays as it is") {
  part::Switch one;
  one.name = "main";
  PartBench bench;
  bench.install(failed(one, "handle stuck"), {{"common", "in"}, {"way1", "out"}});
  bench.net.add(BenchSupply{}, {bench.point("in"), network::reference_node}, "supply");
  bench.net.add(part::Resistance{1.0}, {bench.point("out"), network::reference_node}, "load");
  bench.start();
  bench.stimulate({.what = network::Stimulus::What::SwitchTo, .word = "main", .position = 0});
  bench.go(1.0);
  CHECK(bench.volts("out") > 11.0);
}

TEST_CASE("given a fuse of 1 A replaced by what the drawer held, then it carries 5 A for good") {
  part::Fuse fuse;
  fuse.rated = stated(1.0_A);
  CHECK(fuse.opening_time(5.0_A, part::FuseLaw::Latest).has_value());
  const part::Fuse wrong = failed(fuse, "replaced by 10 A");
  CHECK(wrong.rated.si() == 10.0);
  CHECK_FALSE(wrong.opening_time(5.0_A, part::FuseLaw::Earliest).has_value());
  fuse.style = part::FuseStyle::Blade;
  fuse.rated = stated(7.5_A);
  CHECK(failed(fuse, "replaced by 15 A").style == part::FuseStyle::Blade);
}

TEST_CASE("given an adapter, then the wrong one in its place is the next higher of the usual") {
  part::Adapter adapter;
  adapter.rated = stated(1.5_A);
  adapter.output = stated(24.1_V);
  CHECK(failed(adapter, "36 V one in its place").stage().set_v == 36.0);
  adapter.output = stated(12.0_V);
  CHECK(failed(adapter, "15 V one in its place").stage().set_v == 15.0);
  adapter.output = stated(48.0_V);
  for (const part::FailureMode& mode : adapter.failure_modes()) {
    CHECK(mode.name.find("in its place") == std::string::npos);
  }
}

TEST_CASE("given a charger, when its adjustments slip, then its plan follows") {
  part::Charger charger;
  charger.voltage = stated(12.6_V);
  charger.current = stated(1.0_A);
  charger.ends_at = stated(0.1_A);
  CHECK(failed(charger, "voltage one percent high").plan().voltage_v == doctest::Approx(12.726));
  CHECK(failed(charger, "current at twice").plan().current_a == doctest::Approx(2.0));
  const part::ChargePlan endless = failed(charger, "never ends").plan();
  CHECK_FALSE(endless.ends);
  CHECK(endless.ends_a == doctest::Approx(0.1));
}

TEST_CASE("given a blocked fan and a covered box, then less heat leaves") {
  part::Fan fan;
  fan.rated_voltage = stated(12.0_V);
  fan.rated_current = stated(0.1_A);
  const part::FanDraw blocked = failed(fan, "blocked").law();
  CHECK(blocked.airflow_m3_per_s_at(12.0) == 0.0);
  CHECK(blocked.current_a_at(12.0) == doctest::Approx(1.5 * fan.law().current_a_at(12.0)));
  part::Box box;
  const part::BoxSurface bare = box.surface();
  const part::BoxSurface covered = failed(box, "covered").surface();
  CHECK(covered.top.si() == 0.0);
  CHECK(covered.sides.si() == doctest::Approx(0.5 * bare.sides.si()));
}

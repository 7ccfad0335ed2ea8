#include "part/pack/pack.hpp"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "part/pack/cell_group.hpp"
#include "support/part_bench.hpp"
#include "support/shelf_cell.hpp"

using namespace tideover;
using namespace tideover::tests;
using namespace tideover::quantity::literals;

namespace {

part::Pack pack_of(std::string_view cell, int series, int parallel, double charge) {
  part::Pack pack;
  pack.name = "pack";
  pack.cell = shelf_cell(cell);
  pack.series = series;
  pack.parallel = parallel;
  pack.charge = stated(quantity::Ratio::of_si(charge));
  return pack;
}

/// A pack between "plus" and "0" with a constant current through it.
struct Discharge {
  PartBench bench;
  network::Handle<ConstantCurrent> load;

  Discharge(const part::Pack& pack, double current_a, double air_c = 25.0) : bench(air_c) {
    bench.install(pack, {{"plus", "plus"}, {"minus", "0"}});
    load = bench.net.add(ConstantCurrent{current_a}, {bench.point("plus"), network::reference_node},
                         "load");
    bench.start();
  }
  void draw(double current_a) {
    bench.net.law(load).current_a = current_a;
    bench.disturbed();
  }
  double volts() { return bench.volts("plus"); }
  double reads(const std::string& channel) { return bench.reads("pack", channel); }
  /// Hours until the pack is down to `end_v`, looked at every `look_s`.
  double hours_to(double end_v, double look_s = 30.0) {
    while (volts() > end_v && bench.time_s() < 400.0 * 3600.0) bench.go(look_s);
    return bench.time_s() / 3600.0;
  }
};

}  // namespace

TEST_CASE("given a charged pack at rest, its groups share its voltage and nothing flows") {
  Discharge d(pack_of("nmc-21700-4000", 5, 2, 0.8), 0.0);
  d.bench.go(1.0);
  const double group_v = d.reads("group 1 voltage");
  // The rest voltage at 80 % is 4.031 V, half the gap between the branches above it after charging.
  CHECK(group_v == doctest::Approx(4.031 + 0.015).epsilon(1e-4));
  CHECK(d.volts() == doctest::Approx(5.0 * group_v).epsilon(1e-9));
  CHECK(d.reads("charge") == doctest::Approx(0.8).epsilon(1e-6));
  CHECK(std::abs(d.reads("discharge current")) < 1e-6);
}

TEST_CASE("given a load, then the voltage jumps at once, creeps on, and rebounds when it goes") {
  Discharge d(pack_of("nmc-21700-4000", 5, 2, 0.6), 0.0);
  d.bench.go(10.0);
  const double rested_v = d.volts();
  d.draw(4.0);
  d.bench.go(0.001);
  const double jumped_v = d.volts();
  // 5 groups of 2 cells of 13.5 mOhm and 1 mOhm of strip each, 4 A.
  CHECK(rested_v - jumped_v == doctest::Approx(4.0 * 5.0 * (0.0135 / 2.0 + 0.001)).epsilon(0.01));
  d.bench.go(60.0);
  CHECK(d.volts() < jumped_v - 0.03);
  d.draw(0.0);
  d.bench.go(0.001);
  const double released_v = d.volts();
  d.bench.go(600.0);
  CHECK(d.volts() > released_v + 0.02);
  CHECK(d.volts() < rested_v);
}

TEST_CASE("a colder pack sags more and gives less down to the same voltage") {
  double before_h = 1e9;
  for (const double air_c : {25.0, 5.0, -10.0}) {
    Discharge d(pack_of("nmc-21700-4000", 5, 1, 1.0), 8.0, air_c);
    const double hours = d.hours_to(5.0 * 3.3, 5.0);
    CHECK(hours < before_h);
    before_h = hours;
  }
}

TEST_CASE("a pack at its end of life holds less and sags more, the longer it has aged the more") {
  const part::Pack fresh = pack_of("nmc-21700-4000", 5, 2, 1.0);
  const auto worn = fresh.at_end_of_life();
  CHECK(worn->group_capacity(1).si() == doctest::Approx(0.8 * fresh.group_capacity(1).si()));
  CHECK(worn->resistance_factor() == doctest::Approx(1.5));
  Discharge new_one(fresh, 4.0);
  Discharge old_one(*worn, 4.0);
  const double fresh_h = new_one.hours_to(15.0);
  const double worn_h = old_one.hours_to(15.0);
  CHECK(worn_h < 0.8 * fresh_h);
  CHECK(worn_h > 0.6 * fresh_h);
}

TEST_CASE("given one weak group, then it is empty first, and the pack voltage hides it for long") {
  part::Pack pack = pack_of("nmc-21700-4000", 5, 1, 1.0);
  pack.groups.resize(5);
  pack.groups[2].capacity = stated(3.0_Ah);
  REQUIRE(pack.contradictions().empty());
  Discharge d(pack, 2.0);
  while (d.reads("group 3 voltage") > 2.5) d.bench.go(10.0);
  CHECK(d.reads("group 1 voltage") > 3.4);
  CHECK(d.volts() > 5.0 * 3.2);
  CHECK(d.bench.time_s() / 3600.0 == doctest::Approx(1.5).epsilon(0.05));
}

TEST_CASE("a group that is emptied beyond empty loses its voltage steeply and may reverse") {
  Discharge d(pack_of("nmc-21700-4000", 1, 1, 0.02), 0.4);
  d.bench.go(0.02 * 3.95 / 0.4 * 3600.0 + 0.06 * 3.95 / 0.4 * 3600.0);
  CHECK(d.volts() < 0.1);
  CHECK(d.volts() > -1.0);
}

TEST_CASE("a group that is charged beyond full rises above its limit") {
  Discharge d(pack_of("lfp-26650-2500", 1, 1, 1.0), -0.25);
  d.bench.go(0.06 * 2.58 / 0.25 * 3600.0);
  CHECK(d.volts() > 4.2);
  CHECK(d.reads("charge") > 1.05);
}

TEST_CASE(
    "given constant current and then constant voltage, then the pack fills and takes no more") {
  PartBench bench;
  bench.install(pack_of("nmc-21700-4000", 5, 2, 0.2), {{"plus", "plus"}, {"minus", "0"}});
  bench.net.add(ChargingSupply{.set_v = 21.0, .limit_a = 2.0},
                {bench.point("plus"), network::reference_node}, "charger");
  bench.start();
  bench.go(600.0);
  CHECK(bench.reads("pack", "discharge current") == doctest::Approx(-2.0).epsilon(1e-3));
  bench.go(8.0 * 3600.0);
  CHECK(bench.volts("plus") == doctest::Approx(21.0).epsilon(1e-3));
  CHECK(bench.reads("pack", "discharge current") > -0.02);
  // Full is 4.2 V at rest; the branch after charging lies half a gap, 15 mV, higher.
  CHECK(bench.reads("pack", "charge") > 0.98);
  CHECK(bench.reads("pack", "charge") < 1.0);
}

TEST_CASE("what a discharge takes out and what was lost make up for the energy that has gone") {
  const part::Pack pack = pack_of("nmc-21700-4000", 5, 2, 0.9);
  Discharge d(pack, 3.0);
  const double before_j = d.reads("energy left");
  // Trapezoids every second over a voltage that turns slowly: good to 1e-5.
  double out_j = 0.0;
  double last_v = d.volts();
  d.bench.go(1e-3);
  last_v = d.volts();
  for (int k = 0; k < 3600; ++k) {
    d.bench.go(1.0);
    out_j += 3.0 * 0.5 * (last_v + d.volts());
    last_v = d.volts();
  }
  const double gone_j = before_j - d.reads("energy left");
  CHECK(gone_j > out_j);
  // 3 A through 5 (13.5/2 + slow 10/2 + quick 4/2 + 1) mOhm and 5 half gaps, and what went into
  // the polarisation: within a third.
  const double expected_j = 3600.0 * (9.0 * 5.0 * 0.0148 + 3.0 * 5.0 * 0.015);
  CHECK(gone_j - out_j == doctest::Approx(expected_j).epsilon(0.33));
}

TEST_CASE("a pack that works hard warms up by its losses over its path to the air") {
  const part::Pack pack = pack_of("nmc-21700-4000", 5, 2, 0.9);
  Discharge d(pack, 8.0);
  d.bench.go(1800.0);
  const double rise_k = d.reads("cell temperature") - (25.0_degC).si();
  // No more than the heat of half an hour kept in 660 J/K: 64 A2 * 75 mOhm = 4.8 W.
  CHECK(rise_k > 3.0);
  CHECK(rise_k < 4.8 * 1800.0 / 660.0);
}

TEST_CASE("the body of a pack is its cells and their holder, where a sensor sits") {
  const part::Pack pack = pack_of("nmc-21700-4000", 5, 2, 0.9);
  CHECK(pack.heat_of_body().si() == doctest::Approx(pack.heat_capacity().si() + 30.0));
  CHECK(pack.path_of_body().si() == pack.to_air().si());
  Discharge d(pack, 8.0);
  d.bench.go(600.0);
  const auto& names = d.bench.net.unknown_names();
  const auto body = std::find(names.begin(), names.end(), "pack.body");
  REQUIRE(body != names.end());
  const auto at = static_cast<std::size_t>(body - names.begin());
  CHECK(d.bench.view().unknowns()[at] == d.reads("cell temperature"));
  CHECK(d.reads("cell temperature") > (25.5_degC).si());
}

TEST_CASE("a lead-acid block gives charge back after a pause") {
  Discharge d(pack_of("lead-acid-12v-7ah", 1, 1, 1.0), 7.0);
  const double hours = d.hours_to(10.5, 5.0);
  // Peukert's law says 0.64 h; at twenty times the rated current the wells are up to 15 % milder.
  CHECK(hours > 0.60);
  CHECK(hours < 0.74);
  d.draw(0.0);
  d.bench.go(4.0 * 3600.0);
  CHECK(d.volts() > 11.6);
  d.draw(7.0);
  d.bench.go(120.0);
  CHECK(d.volts() > 10.5);
}

TEST_CASE("a pack found at a stated charge has it in every group") {
  Discharge d(pack_of("nmc-21700-4000", 3, 1, 1.0), 0.0);
  d.bench.stimulate({.what = network::Stimulus::What::ChargeTo, .word = "pack", .amount = 0.3});
  d.bench.go(1.0);
  CHECK(d.reads("charge") == doctest::Approx(0.3).epsilon(1e-6));
  CHECK(d.reads("group 2 voltage") == doctest::Approx(3.590).epsilon(1e-4));
}

TEST_CASE("the sheet is told what cannot be") {
  part::Pack pack = pack_of("nmc-21700-4000", 15, 1, 1.0);
  CHECK(pack.contradictions().size() == 1);  // 63 V
  pack.series = 3;
  CHECK(pack.contradictions().empty());
  pack.groups.resize(2);
  CHECK(pack.contradictions().front().starts_with("groups:"));
  pack.groups.clear();
  std::swap(pack.cell.rest[3], pack.cell.rest[4]);
  pack.cell.discharge_to = stated(4.3_V);
  CHECK(pack.contradictions().size() == 2);
}

TEST_CASE("taps stand between the groups, and a meter finds every group") {
  const part::Pack pack = pack_of("nmc-21700-4000", 3, 1, 1.0);
  const auto terminals = pack.terminals();
  REQUIRE(terminals.size() == 4);
  CHECK(terminals[2].name == "tap1");
  const auto points = pack.test_points();
  REQUIRE(points.size() == 4);
  CHECK(points[1].plus == "tap1");
  CHECK(points[1].minus == "minus");
  CHECK(points[3].plus == "plus");
  CHECK(points[3].minus == "tap2");
}

TEST_CASE("ten cells cool better than one, but not ten times") {
  const auto one = pack_of("nmc-18650-2900", 1, 1, 1.0).to_air();
  const auto ten = pack_of("nmc-18650-2900", 5, 2, 1.0).to_air();
  CHECK(one.si() / ten.si() == doctest::Approx(std::pow(10.0, 2.0 / 3.0)));
}

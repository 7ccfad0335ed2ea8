// How many groups a pack may have below 60 V (the limit of ES1 for direct current, IEC 62368-1,
// from memory) and what it gives into a short circuit (open voltage over resistance, public page,
// read).
#include <algorithm>

#include <doctest/doctest.h>

#include "support/part_bench.hpp"
#include "support/shelf_cell.hpp"

namespace {

using namespace tideover;
using namespace quantity;
using namespace quantity::literals;
using tests::shelf_cell;
using tests::stated;

bool stays_below_60_v(const std::string& row, int series) {
  part::Pack pack;
  pack.name = "pack";
  pack.cell = shelf_cell(row);
  pack.series = series;
  return std::ranges::none_of(pack.contradictions(), [](const std::string& sentence) {
    return sentence.find("stay below 60 V") != std::string::npos;
  });
}

/// Plain cells of 25 mOhm at 4.2 V, whatever their charge.
part::Pack plain_pack(int parallel) {
  part::Pack pack;
  pack.name = "pack";
  pack.series = 3;
  pack.parallel = parallel;
  pack.link_resistance = stated(0.0_Ohm);
  part::Cell& cell = pack.cell;
  cell = shelf_cell("nmc-18650-2800");
  for (auto& point : cell.rest) point.voltage = stated(4.2_V);
  for (auto& point : cell.resistance) point.resistance = stated(25.0_mOhm);
  cell.branch_gap = stated(0.0_V);
  cell.quick_resistance = stated(0.01_mOhm);
  cell.slow_resistance = stated(0.01_mOhm);
  return pack;
}

double short_circuit_a(int parallel, double wiring_ohm) {
  tests::PartBench bench;
  bench.install(plain_pack(parallel), {{"plus", "top"}, {"minus", "0"}});
  bench.net.add(tests::BenchSupply{.volts = 0.0, .ohms = wiring_ohm},
                {bench.point("top"), network::reference_node}, "short");
  bench.start();
  bench.go(1e-3);
  return bench.reads("pack", "discharge current");
}

}  // namespace

TEST_CASE("60 V: 14 groups of 4.2 V stay below, 15 do not, 16 groups of 3.65 V stay below") {
  CHECK(stays_below_60_v("nmc-18650-2800", 14));
  CHECK_FALSE(stays_below_60_v("nmc-18650-2800", 15));
  CHECK(stays_below_60_v("lfp-26650-2500", 16));
  CHECK_FALSE(stays_below_60_v("lfp-26650-2500", 17));
}

TEST_CASE("short circuit of three groups of 25 mOhm cells: 168 A, 504 A, 252 A with 25 mOhm") {
  constexpr double spanner_ohm = 1e-5;
  CHECK(short_circuit_a(1, spanner_ohm) == doctest::Approx(168.0).epsilon(1e-3));
  CHECK(short_circuit_a(3, spanner_ohm) == doctest::Approx(504.0).epsilon(1e-3));
  CHECK(short_circuit_a(3, 0.025) == doctest::Approx(252.0).epsilon(1e-3));
}

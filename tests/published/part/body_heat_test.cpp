// A body that warms: T = P R (1 - exp(-t/(R C))), the first-order law of any handbook of heat
// transfer (lumped capacity); computed.
#include <cmath>

#include <doctest/doctest.h>

#include "part/resistor/resistor.hpp"
#include "support/part_bench.hpp"

namespace {

using namespace tideover;
using namespace quantity::literals;
using tests::stated;

}  // namespace

TEST_CASE("10 W, 3 K/W, 600 J/K: 8.50 K after ten minutes, 18.96, 25.94, 30 K in the end") {
  part::Resistor heater;
  heater.name = "heater";
  heater.resistance = stated(10.0_Ohm);
  heater.body_resistance = stated(3.0_K_per_W);
  heater.body_heat = stated(600.0_J_per_K);
  tests::PartBench bench;
  bench.net.add(tests::BenchSupply{.volts = 10.0, .ohms = 1e-6},
                {bench.point("supply"), network::reference_node}, "supply");
  bench.install(heater, {{"a", "supply"}, {"b", "0"}});
  bench.start();
  const auto rise_k = [&] { return bench.reads("heater", "body temperature") - 298.15; };
  double gone_s = 0.0;
  struct Row {
    double at_s, expected_k;
  };
  for (const Row& row : {Row{600.0, 8.50}, Row{1800.0, 18.96}, Row{3600.0, 25.94}}) {
    bench.go(row.at_s - gone_s);
    gone_s = row.at_s;
    CAPTURE(row.at_s);
    CHECK(std::abs(rise_k() - row.expected_k) < 0.01);
  }
  bench.go(12.0 * 1800.0);
  CHECK(std::abs(rise_k() - 30.0) < 0.01);
}

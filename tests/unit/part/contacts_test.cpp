// Terminal blocks and connectors: small resistances that must be there, and plugs that come out.
#include <doctest/doctest.h>

#include "part/connector/connector.hpp"
#include "part/resistance.hpp"
#include "part/terminal_block/terminal_block.hpp"
#include "support/part_bench.hpp"

namespace {

using namespace tideover;
using namespace tideover::quantity::literals;
using network::Stimulus;
using tests::BenchSupply;
using tests::PartBench;
using tests::stated;

}  // namespace

TEST_CASE("given a terminal block, then each clamp drops its own current's share") {
  part::TerminalBlock block;
  block.name = "minus_bar";
  block.ways = 3;
  block.resistance = stated(5_mOhm);
  PartBench bench;
  bench.install(block, {{"w1", "in"}, {"w2", "a"}, {"w3", "b"}});
  bench.net.add(BenchSupply{}, {bench.point("in"), bench.point("0")}, "supply");
  bench.net.add(part::Resistance{1.0}, {bench.point("a"), bench.point("0")}, "a");
  bench.net.add(part::Resistance{0.5}, {bench.point("b"), bench.point("0")}, "b");
  bench.start();
  bench.go(0.01);
  const double a_a = bench.volts("a");
  const double b_a = 0.5 * bench.volts("b");
  CHECK(bench.volts("in") - bench.volts("a") == doctest::Approx(0.005 * (a_a + b_a) + 0.005 * a_a));
  CHECK(bench.reads("minus_bar", "current of the busiest clamp") == doctest::Approx(a_a + b_a));
}

TEST_CASE("a terminal block has as many ways as it says, none of which must be used") {
  part::TerminalBlock block;
  block.ways = 6;
  const auto terminals = block.terminals();
  REQUIRE(terminals.size() == 6);
  CHECK(terminals.front().name == "w1");
  CHECK(terminals.back().name == "w6");
  CHECK(!terminals.back().must_be_wired);
}

TEST_CASE(
    "given a plugged connector, when it is pulled and put back, then its load goes and returns") {
  part::Connector plug;
  plug.name = "sea_plug";
  PartBench bench;
  bench.install(plug, {{"in1", "in"}, {"out1", "load"}, {"in2", "0"}, {"out2", "return"}});
  bench.net.add(BenchSupply{}, {bench.point("in"), bench.point("0")}, "supply");
  bench.net.add(part::Resistance{1.0 / 12.0}, {bench.point("load"), bench.point("return")}, "load");
  bench.start();
  bench.go(0.01);
  CHECK(bench.reads("sea_plug", "current of the busiest contact") ==
        doctest::Approx(1.0).epsilon(0.01));
  bench.stimulate({.what = Stimulus::What::Unplugged, .word = "another"});
  bench.stimulate({.what = Stimulus::What::Unplugged, .word = "sea_plug"});
  bench.go(0.01);
  CHECK(bench.reads("sea_plug", "current of the busiest contact") < 1e-6);
  bench.stimulate({.what = Stimulus::What::PluggedIn, .word = "sea_plug"});
  bench.go(0.01);
  CHECK(bench.volts("load") - bench.volts("return") == doctest::Approx(12.0).epsilon(0.01));
  CHECK(bench.times_said("sea_plug", "is unplugged") == 1);
  CHECK(bench.times_said("sea_plug", "is plugged in") == 1);
}

TEST_CASE("a connector may start unplugged") {
  part::Connector plug;
  plug.name = "spare";
  plug.pairs = 1;
  plug.plugged_in = false;
  PartBench bench;
  bench.install(plug, {{"in1", "in"}, {"out1", "load"}});
  bench.net.add(BenchSupply{}, {bench.point("in"), bench.point("0")}, "supply");
  bench.net.add(part::Resistance{1.0 / 12.0}, {bench.point("load"), bench.point("0")}, "load");
  bench.start();
  bench.go(0.01);
  CHECK(bench.volts("load") < 1e-6);
}

// A switch: what it joins in each position, and whom it obeys.
#include "part/switch/switch.hpp"

#include <doctest/doctest.h>

#include "part/resistance.hpp"
#include "support/part_bench.hpp"

namespace {

using namespace tideover;
using namespace tideover::quantity::literals;
using network::Stimulus;
using part::Switch;
using tests::BenchSupply;
using tests::PartBench;

Stimulus to(const std::string& name, int position) {
  return {.what = Stimulus::What::SwitchTo, .word = name, .position = position};
}

/// 12 V at the common terminal, 12 ohm at each way of the switch.
PartBench bench_with(const Switch& part) {
  PartBench bench;
  bench.install(part, {{"common", "in"}, {"way1", "one"}, {"way2", "two"}});
  bench.net.add(BenchSupply{}, {bench.point("in"), bench.point("0")}, "supply");
  for (const char* way : {"one", "two"}) {
    bench.net.add(part::Resistance{1.0 / 12.0}, {bench.point(way), bench.point("0")}, way);
  }
  bench.start();
  return bench;
}

Switch named(const std::string& name, int ways) {
  Switch part;
  part.name = name;
  part.ways = ways;
  return part;
}

}  // namespace

TEST_CASE("given an on-off switch, when it is switched off, then its load is without current") {
  PartBench bench = bench_with(named("main", 1));
  bench.go(0.01);
  CHECK(bench.volts("one") == doctest::Approx(12.0).epsilon(0.01));
  CHECK(bench.reads("main", "current") == doctest::Approx(1.0).epsilon(0.01));
  bench.stimulate(to("main", 0));
  bench.go(0.01);
  CHECK(bench.volts("one") < 1e-6);
  CHECK(bench.reads("main", "current") < 1e-6);
  CHECK(bench.said_s("main", "is switched off") >= 0.0);
}

TEST_CASE(
    "given a changeover switch, when it moves, then the one way is closed and the other open") {
  Switch part = named("source", 2);
  part.has_off = false;
  PartBench bench = bench_with(part);
  bench.stimulate(to("source", 2));
  bench.go(0.01);
  CHECK(bench.volts("one") < 1e-6);
  CHECK(bench.volts("two") == doctest::Approx(12.0).epsilon(0.01));
  CHECK(bench.said_s("source", "goes to position 2") >= 0.0);
}

TEST_CASE("a switch leaves other names and positions it does not have alone") {
  Switch part = named("source", 2);
  part.has_off = false;
  PartBench bench = bench_with(part);
  bench.stimulate(to("other", 2));
  bench.stimulate(to("source", 0));
  bench.stimulate(to("source", 3));
  bench.go(0.01);
  CHECK(bench.volts("one") == doctest::Approx(12.0).epsilon(0.01));
  CHECK(bench.marks.empty());
}

TEST_CASE("two poles move together and have terminals of their own") {
  Switch part = named("both", 1);
  part.poles = 2;
  PartBench bench;
  bench.install(part,
                {{"common_a", "in"}, {"way1_a", "plus"}, {"common_b", "0"}, {"way1_b", "minus"}});
  bench.net.add(BenchSupply{}, {bench.point("in"), bench.point("0")}, "supply");
  bench.net.add(part::Resistance{1.0 / 12.0}, {bench.point("plus"), bench.point("minus")}, "load");
  bench.start();
  bench.go(0.01);
  CHECK(bench.reads("both", "current of pole b") == doctest::Approx(1.0).epsilon(0.01));
  bench.stimulate(to("both", 0));
  bench.go(0.01);
  CHECK(bench.reads("both", "current of pole a") < 1e-6);
  CHECK(bench.reads("both", "current of pole b") < 1e-6);
}

TEST_CASE("a switch that says nonsense about its positions is told") {
  Switch part = named("s", 2);
  CHECK(part.contradictions().empty());
  part.start = 3;
  CHECK(part.contradictions().size() == 1);
  part.start = 0;
  part.has_off = false;
  CHECK(part.contradictions().size() == 1);
}

#include "part/thermal_cut_out/thermal_cut_out.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "part/resistance.hpp"
#include "support/part_bench.hpp"
#include "support/source_law.hpp"

namespace {

using namespace tideover;
using namespace part;
using namespace quantity;
using namespace quantity::literals;
using tests::stated;

/// The cut-out in series with 10 Ohm that heats it: 12 V, and contact heat enough to trip it.
struct HeatedBench {
  HeatedBench(ThermalCutOut part, double supply_v) : cut_out(std::move(part)) {
    cut_out.name = "t1";
    supply = bench.net.add(tests::Source{.volt_v = supply_v},
                           {bench.point("rail"), network::reference_node}, "supply");
    bench.install(cut_out, {{"a", "rail"}, {"b", "load"}});
    bench.net.add(Resistance{0.1}, {bench.point("load"), network::reference_node}, "load");
    bench.start();
  }
  ThermalCutOut cut_out;
  tests::PartBench bench;
  network::Handle<tests::Source> supply;
};

/// 1 Ohm in the contact: 1.19 W at 12 V and 10 Ohm, 47.6 K above the air.
ThermalCutOut warm_one() {
  ThermalCutOut part;
  part.resistance = stated(1_Ohm);
  part.opens = stated(60_degC);
  part.resets = stated(45_degC);
  return part;
}

}  // namespace

TEST_CASE("given heat, then it opens at its temperature, closes when it has cooled, and again") {
  HeatedBench build(warm_one(), 12.0);
  build.bench.go(3600.0);
  CHECK(build.bench.times_said("t1", "opens: too hot") > 3);
  CHECK(build.bench.times_said("t1", "has cooled and closes again") > 3);
  // First opening: 35 K of 47.6 K with 40 K/W and 2 J/K.
  double first_s = 0.0;
  for (const auto& mark : build.bench.marks) {
    if (mark.words == "opens: too hot") {
      first_s = mark.time_s;
      break;
    }
  }
  const double watt = std::pow(12.0 / 11.001, 2);
  CHECK(first_s == doctest::Approx(-80.0 * std::log(1.0 - 35.0 / (40.0 * watt))).epsilon(1e-3));
}

TEST_CASE("given a one-shot, then it opens for good") {
  ThermalCutOut part = warm_one();
  part.resets = {};
  part.one_shot = true;
  CHECK(part.contradictions().empty());
  HeatedBench build(part, 12.0);
  build.bench.go(3600.0);
  CHECK(build.bench.times_said("t1", "opens for good: too hot") == 1);
  CHECK(std::abs(build.bench.reads("t1", "current")) < 1e-6);
}

TEST_CASE("given little current, then it stays closed") {
  HeatedBench build(warm_one(), 6.0);
  build.bench.go(3600.0);
  CHECK(build.bench.marks.empty());
  CHECK(build.bench.reads("t1", "current") == doctest::Approx(6.0 / 11.0).epsilon(1e-3));
}

TEST_CASE("given no reset temperature, then it is 20 K below, one above it is named") {
  ThermalCutOut part;
  CHECK(part.resets_at() == 50_degC);
  part.resets = stated(80_degC);
  CHECK(part.contradictions().front() == "resets: must lie below opens");
  part.resets = stated(40_degC);
  part.one_shot = true;
  CHECK(part.contradictions().front() == "resets: a one-shot never closes again");
}

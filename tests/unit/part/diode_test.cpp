#include "part/diode/diode.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "part/load/load_draw.hpp"
#include "support/closeness.hpp"
#include "support/part_bench.hpp"
#include "support/source_law.hpp"

namespace {

using namespace tideover;
using namespace part;
using namespace quantity;
using namespace quantity::literals;
using tests::relative_error;
using tests::stated;

Diode named(Material material) {
  Diode diode;
  diode.name = "d1";
  diode.material = material;
  return diode;
}

void add_point(Diode& diode, Volt voltage, Ampere current) {
  DiodePoint& point = diode.points.emplace_back();
  point.voltage = stated(voltage);
  point.current = stated(current);
}

}  // namespace

TEST_CASE("given three points of a curve that a junction makes, then the fit finds that junction") {
  const Junction truth = typical_junction(Material::Schottky);
  std::vector<ForwardPoint> points;
  for (const double v : {0.25, 0.38, 0.50}) {
    points.push_back({Volt::of_si(v), Ampere::of_si(truth.current(v, truth.reference_k))});
  }
  // Given in any order; the leakage of the truth is no part of the fitted law, 1e-5 of the least.
  std::swap(points[0], points[2]);
  const auto fit = fit_junction(points, 25_degC, 1.0, 0_Ohm);
  REQUIRE(fit);
  CHECK(relative_error(fit.value().ideality, truth.ideality) < 1e-3);
  CHECK(relative_error(fit.value().series.si(), truth.series_ohm) < 1e-3);
  CHECK(relative_error(fit.value().saturation.si(), truth.saturation_a) < 1e-2);
}

TEST_CASE("given points that no junction makes, then the fit says what is wrong with them") {
  const auto refusal = [](std::vector<ForwardPoint> points) {
    const auto fit = fit_junction(std::move(points), 25_degC, 1.05, 0_Ohm);
    return fit ? std::string() : fit.problems()[0].text;
  };
  CHECK(refusal({}) == "a fit takes one to three points");
  CHECK(refusal({{0.5_V, 1_A}, {0.4_V, 2_A}}) ==
        "voltage must rise with current from point to point");
  CHECK(refusal({{0.4_V, 1_A}, {0.5_V, 1_A}}) ==
        "voltage must rise with current from point to point");
  CHECK(refusal({{0.40_V, 1_A}, {0.41_V, 3_A}}) ==
        "these points ask for a series resistance of -9.8 mOhm");
  CHECK(refusal({{0.1_V, 1_A}, {1.0_V, 2_A}}) ==
        "the series resistance these points ask for leaves the junction no voltage");
}

TEST_CASE("given the material only, then the diode is a typical one of it") {
  const auto at = [](Material material, double v) {
    return named(material).junction().value().current(v, 298.15);
  };
  CHECK(relative_error(at(Material::Silicon, 0.90), 1.0) < 0.05);
  CHECK(relative_error(at(Material::Schottky, 0.394), 1.0) < 0.05);
  // Leakage at 40 V: microamperes and a milliampere.
  CHECK(relative_error(-at(Material::Silicon, -40.0), 5e-6) < 0.01);
  CHECK(relative_error(-at(Material::Schottky, -40.0), 1e-3) < 0.01);
}

TEST_CASE("given its leakage at 25 degC, then at 100 degC it is ten times as much for a Schottky") {
  Diode diode = named(Material::Schottky);
  diode.leakage = stated(2_mA);
  const Junction law = diode.junction().value();
  CHECK(relative_error(-law.current(-40.0, 298.15), 2e-3) < 0.01);
  CHECK(relative_error(-law.current(-40.0, 373.15), 20e-3) < 0.05);
}

TEST_CASE("given a warm diode, then its drop has fallen and the heat is where the current is") {
  Diode diode = named(Material::Silicon);
  tests::PartBench bench;
  bench.net.add(tests::Source{}, {bench.point("in"), network::reference_node}, "supply");
  bench.install(diode, {{"anode", "in"}, {"cathode", "out"}});
  bench.net.add(LoadDraw{.current_a = 1.0}, {bench.point("out"), network::reference_node}, "load");
  bench.start();
  bench.go(0.001);
  const double cold_v = bench.volts("in") - bench.volts("out");
  bench.go(3600.0);
  const double warm_v = bench.volts("in") - bench.volts("out");
  const double rise_k = bench.reads("d1", "junction temperature") - 298.15;
  CHECK(relative_error(rise_k, 50.0 * warm_v * 1.0) < 1e-3);
  CHECK(warm_v < cold_v - 0.03);
  CHECK(warm_v > cold_v - 0.1);
}

TEST_CASE("given values that contradict each other, then each is named") {
  CHECK(named(Material::Silicon).contradictions().empty());
  Diode diode = named(Material::Schottky);
  diode.ideality = stated(0.5_ratio);
  CHECK(diode.contradictions().front() == "ideality: no junction has one below 0.8");
  diode = named(Material::Schottky);
  add_point(diode, 0.394_V, 1_A);
  add_point(diode, 0.503_V, 3_A);
  CHECK(diode.contradictions().empty());
  diode.saturation_current = stated(1_uA);
  CHECK(diode.contradictions().front().starts_with("saturation_current:"));
  diode.saturation_current = {};
  diode.series_resistance = stated(10_mOhm);
  CHECK(diode.contradictions().front().starts_with("series_resistance:"));
}

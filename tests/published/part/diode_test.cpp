// Diodes against textbooks and datasheets.
// "Sedra/Smith": Microelectronic Circuits; examples 4.3 and 4.4 from memory, section 3.3 read in
// extracts. Datasheet points as read: 3 A 40 V Schottky class (DS23003), 1 A 40 V class (PD-20590),
// 1 A 20 V class (a third maker's).
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

double thermal_voltage_v(Temperature t) { return boltzmann_over_charge_v_per_k * t.si(); }

/// The temperature at which kT/q is so many volts.
Temperature where_vt_is(double vt_v) {
  return Temperature::of_si(vt_v / boltzmann_over_charge_v_per_k);
}

/// Forward voltage at a current, by bisection.
double forward_v(const Junction& law, double current_a, double temperature_k) {
  double low = 0.0;
  double high = 5.0;
  for (int k = 0; k < 60; ++k) {
    const double middle = 0.5 * (low + high);
    (law.current(middle, temperature_k) < current_a ? low : high) = middle;
  }
  return low;
}

Diode diode_through(std::initializer_list<std::pair<double, double>> volts_at_amperes) {
  Diode diode;
  diode.name = "d1";
  diode.material = Material::Schottky;
  for (const auto& [volt, ampere] : volts_at_amperes) {
    diode.points.emplace_back();
    diode.points.back().voltage = tests::stated(Volt::of_si(volt));
    diode.points.back().current = tests::stated(Ampere::of_si(ampere));
  }
  return diode;
}

}  // namespace

TEST_CASE(
    "thermal voltage at -40, 25 and 85 degC: 20.09, 25.69, 30.86 mV (course solution, read)") {
  CHECK(std::abs(thermal_voltage_v(Temperature::of_celsius(-40)) - 20.09e-3) < 0.01e-3);
  CHECK(std::abs(thermal_voltage_v(25_degC) - 25.69e-3) < 0.01e-3);
  CHECK(std::abs(thermal_voltage_v(85_degC) - 30.86e-3) < 0.01e-3);
}

TEST_CASE("volts per decade of the law: 46.3, 59.2, 71.1 mV (course solution, read)") {
  const Junction ideal{.saturation_a = 1e-14, .ideality = 1.0, .series_ohm = 1e-5};
  const auto decade_v = [&](double celsius) {
    const double t = Temperature::of_celsius(celsius).si();
    return forward_v(ideal, 1e-3, t) - forward_v(ideal, 1e-4, t);
  };
  CHECK(std::abs(decade_v(-40) - 46.3e-3) < 0.1e-3);
  CHECK(std::abs(decade_v(25) - 59.2e-3) < 0.1e-3);
  CHECK(std::abs(decade_v(85) - 71.1e-3) < 0.1e-3);
}

TEST_CASE(
    "1 mA at 0.7 V: saturation current, and 0.873 V at 1 A (Sedra/Smith ex. 4.3, from memory)") {
  const Temperature t = where_vt_is(0.025);
  const auto one = fit_junction({{0.7_V, 1_mA}}, t, 1.0, 0_Ohm);
  const auto two = fit_junction({{0.7_V, 1_mA}}, t, 2.0, 0_Ohm);
  REQUIRE(one);
  REQUIRE(two);
  CHECK(relative_error(one.value().saturation.si(), 6.91e-16) < 2e-3);
  CHECK(relative_error(two.value().saturation.si(), 8.3e-10) < 2e-3);
  const Junction law{.saturation_a = one.value().saturation.si(),
                     .ideality = 1.0,
                     .series_ohm = 1e-5,
                     .reference_k = t.si()};
  CHECK(std::abs(forward_v(law, 1.0, t.si()) - 0.873) < 1e-3);
}

TEST_CASE("5 V over 1 kOhm and a diode: 4.262 mA, 0.738 V (Sedra/Smith ex. 4.4, from memory)") {
  struct Case {
    double vt_v, current_a, diode_v;
  };
  // 60 mV a decade as printed; 25 mV as computed from the same example.
  for (const Case c :
       {Case{0.060 / std::log(10.0), 4.262e-3, 0.738}, Case{0.025, 4.264e-3, 0.7363}}) {
    const Temperature t = where_vt_is(c.vt_v);
    Diode diode = diode_through({{0.7, 1e-3}});
    diode.material = Material::Silicon;
    diode.ideality = tests::stated(1_ratio);
    diode.series_resistance = tests::stated(0.01_mOhm);
    diode.reference = tests::stated(t);
    diode.body_resistance = tests::stated(0.1_K_per_W);
    tests::PartBench bench(t.celsius());
    bench.net.add(tests::Source{.volt_v = 5.0, .source_ohm = 1000.0},
                  {bench.point("rail"), network::reference_node}, "supply");
    bench.install(diode, {{"anode", "rail"}, {"cathode", "0"}});
    bench.start();
    bench.go(10.0);
    CHECK(relative_error(bench.reads("d1", "current"), c.current_a) < 1e-3);
    CHECK(relative_error(bench.volts("rail"), c.diode_v) < 1e-3);
  }
}

TEST_CASE("silicon at constant current falls by about 2 mV/K (Sedra/Smith sec. 3.3, read)") {
  const Junction silicon = typical_junction(Material::Silicon);
  for (const double current_a : {1e-3, 10e-3}) {
    const double slope =
        (forward_v(silicon, current_a, 308.15) - forward_v(silicon, current_a, 288.15)) / 20.0;
    CHECK(std::abs(slope + 2e-3) < 0.5e-3);
  }
}

TEST_CASE(
    "two points of a 3 A Schottky fit 61.6 mOhm and 0.372 V at 1 A (datasheet, read, computed)") {
  const auto fit = fit_junction({{0.525_V, 3_A}, {0.950_V, 9.4_A}}, where_vt_is(0.027), 1.0, 0_Ohm);
  REQUIRE(fit);
  CHECK(relative_error(fit.value().series.si(), 61.6e-3) < 1e-3);
  const Junction law{.saturation_a = fit.value().saturation.si(),
                     .ideality = 1.0,
                     .series_ohm = fit.value().series.si(),
                     .reference_k = where_vt_is(0.027).si()};
  CHECK(std::abs(forward_v(law, 1.0, law.reference_k) - 0.372) < 0.5e-3);
}

TEST_CASE("3 A from 12.0 V through a 3 A Schottky: 11.475 V, 1.575 W, 95.6 % (datasheet, read)") {
  Diode diode = diode_through({{0.525, 3.0}, {0.950, 9.4}});
  diode.body_resistance = tests::stated(0.1_K_per_W);  // held at the datasheet's 25 degC
  tests::PartBench bench;
  bench.net.add(tests::Source{.volt_v = 12.0, .source_ohm = 1e-5},
                {bench.point("supply"), network::reference_node}, "supply");
  bench.install(diode, {{"anode", "supply"}, {"cathode", "rail"}});
  bench.net.add(LoadDraw{.current_a = 3.0}, {bench.point("rail"), network::reference_node}, "load");
  bench.start();
  bench.go(10.0);
  const double out_v = bench.volts("rail");
  CHECK(relative_error(out_v, 11.475) < 1e-3);
  CHECK(relative_error((bench.volts("supply") - out_v) * bench.reads("d1", "current"), 1.575) <
        2e-3);
  CHECK(relative_error(out_v / 12.0, 0.956) < 1e-3);
}

TEST_CASE("points that lie on no one curve are refused: datasheet typicals and limits (read)") {
  // Typicals rounded to hundredths ask for an ideality of nought, limits for a negative one.
  const Diode rounded = diode_through({{0.37, 0.5}, {0.42, 1.0}, {0.62, 3.0}});
  const Diode limits = diode_through({{0.60, 1.0}, {0.73, 2.0}, {0.90, 3.0}});
  CHECK_FALSE(rounded.junction());
  CHECK_FALSE(limits.junction());
  REQUIRE(rounded.contradictions().size() == 1);
  REQUIRE(limits.contradictions().size() == 1);
  CHECK(rounded.contradictions()[0] ==
        "points: these points ask for an ideality of 0.00; a junction has one between 0.8 and 4; "
        "read two or three points off one measured (typical) curve, not off a table of limits");
  CHECK(limits.contradictions()[0].starts_with("points: these points ask for an ideality of -5.4"));
}

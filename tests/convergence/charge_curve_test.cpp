// Charging with constant current, then with constant voltage, against its closed solution.
//
// The cell is a capacitance C behind a resistance r, the charger a voltage V behind R, limited to
// I. With T = (R + r) C:
//     constant current   v(t) = v0 + I t / C, until v = V - I (R + r)
//     constant voltage   i(t) = I exp(-(t - t1) / T)
//     and so             t1 = C (V - I (R + r) - v0) / I
// The charge of a capacitor through a resistor: any textbook of electrical engineering.
#include <cmath>

#include <doctest/doctest.h>

#include "part/capacitor_law.hpp"
#include "part/charger/charger.hpp"
#include "support/part_bench.hpp"

namespace {

using namespace tideover;
using namespace tideover::quantity::literals;
using network::Fact;
using tests::stated;

constexpr double set_v = 16.8;
constexpr double limit_a = 0.9;
constexpr double cell_f = 100.0;
constexpr double cell_ohm = 0.5;
constexpr double output_ohm = 0.01;
constexpr double time_constant_s = (cell_ohm + output_ohm) * cell_f;

/// The charger rounds the corner between its two limits over w = 2 % of the current. Passing it
/// leaves the cell short of w^2 T / (6 I) of charge, and shifts all that follows by a share of
/// w^2 / (6 I^2) of T. As much again for the stepper and for the charger's output capacitor, which
/// takes a millionth of the current.
constexpr double corner_share = 0.02;
constexpr double tolerance = 2.0 * corner_share * corner_share / 6.0;

struct Charging {
  tests::PartBench bench{25.0, 1e-8};  // a corner within a step is told by no smaller one
  double began_v = 0.0;
  double began_s = 0.0;

  explicit Charging(double cell_v) {
    part::Charger charger;
    charger.name = "charger";
    charger.voltage = stated(quantity::Volt::of_si(set_v));
    charger.current = stated(quantity::Ampere::of_si(limit_a));
    charger.output_resistance = stated(quantity::Ohm::of_si(output_ohm));
    charger.back_drain = stated(0.0_A);
    bench.install(charger,
                  {{"in_plus", "in"}, {"in_minus", "0"}, {"out_plus", "cell"}, {"out_minus", "0"}});
    bench.net.add(tests::BenchSupply{24.0, 0.01}, {bench.point("in"), network::reference_node},
                  "supply");
    bench.net.add(part::Capacitance{.capacitance_f = cell_f, .esr_ohm = cell_ohm},
                  {bench.point("cell"), network::reference_node}, {{{"charge", cell_v, 1.0}}},
                  "cell");
    bench.start();
    bench.go(3.0);  // the soft start is over, the clock of the closed solution begins
    began_s = bench.time_s();
    began_v = bench.volts("cell") - cell_ohm * amps();
  }
  [[nodiscard]] double amps() const { return bench.reads("charger", "output current"); }
  void go_to(double after_s) { bench.go(began_s + after_s - bench.time_s()); }
  /// When the constant current ends, after the beginning.
  [[nodiscard]] double change_s() const {
    return cell_f * (set_v - limit_a * (cell_ohm + output_ohm) - began_v) / limit_a;
  }
};

}  // namespace

TEST_CASE("given an ideal cell, while the current is constant its voltage rises in a line") {
  Charging at(15.8);
  REQUIRE(at.change_s() > 50.0);
  for (const double share : {0.1, 0.5, 0.9}) {
    const double after_s = share * (at.change_s() - 2.0 * corner_share * time_constant_s);
    at.go_to(after_s);
    CAPTURE(share);
    CHECK(at.amps() == doctest::Approx(limit_a).epsilon(1e-5));
    CHECK(at.bench.volts("cell") ==
          doctest::Approx(at.began_v + limit_a * after_s / cell_f + limit_a * cell_ohm)
              .epsilon(1e-5));
  }
}

TEST_CASE("given an ideal cell, once the voltage is constant its current falls as exp(-t/RC)") {
  Charging at(15.8);
  for (const double constants : {0.1, 0.5, 1.0, 2.0, 3.0}) {
    at.go_to(at.change_s() + constants * time_constant_s);
    CAPTURE(constants);
    CHECK(at.amps() == doctest::Approx(limit_a * std::exp(-constants)).epsilon(tolerance));
    // What is left of the way to the set voltage is across the cell's own resistance and the
    // charger's.
    CHECK(at.bench.volts("cell") ==
          doctest::Approx(set_v - output_ohm * limit_a * std::exp(-constants)).epsilon(1e-5));
  }
}

TEST_CASE("the change from constant current to constant voltage comes when the closed form says") {
  for (const double cell_v : {14.0, 15.0, 16.0, 16.2}) {
    CAPTURE(cell_v);
    Charging at(cell_v);
    at.go_to(at.change_s() + time_constant_s);
    // One time constant later the current tells when its decay began.
    const double began_s = time_constant_s * (1.0 + std::log(at.amps() / limit_a));
    CHECK(std::abs(began_s) < tolerance * time_constant_s);
  }
}

TEST_CASE("given a cell nearly full, the current is never constant and decays from the first") {
  Charging at(16.7);
  CHECK(at.change_s() < 0.0);
  const double first_a = at.amps();
  CHECK(first_a == doctest::Approx((set_v - at.began_v) / (cell_ohm + output_ohm)).epsilon(1e-4));
  at.go_to(time_constant_s);
  CHECK(at.amps() == doctest::Approx(first_a * std::exp(-1.0)).epsilon(1e-4));
  CHECK_FALSE(at.bench.is("charger", Fact::Full));
}

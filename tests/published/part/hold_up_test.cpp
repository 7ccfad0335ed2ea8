// What a capacitor carries over a gap. Relations from the energy of a capacitor; the first two rows
// read on a public page of questions and answers and in a public note on supplies, the others
// computed from them.
#include <cmath>

#include <doctest/doctest.h>

#include "part/capacitor_law.hpp"
#include "part/load/load_draw.hpp"
#include "support/closeness.hpp"
#include "support/part_bench.hpp"

namespace {

using namespace tideover;
using part::Capacitance;
using part::LoadDraw;
using tests::PartBench;
using tests::relative_error;

/// A charged capacitor and what draws on it.
class Gap {
 public:
  Gap(double farad, double volts, const LoadDraw& load, double esr_ohm = 1e-6) {
    const auto rail = bench_.point("rail");
    bench_.net.add(Capacitance{.capacitance_f = farad, .esr_ohm = esr_ohm},
                   {rail, network::reference_node}, {{{"voltage", volts, volts}}}, "store");
    bench_.net.add(load, {rail, network::reference_node}, "load");
    bench_.start();
  }
  void go(double for_s) { bench_.go(for_s); }
  [[nodiscard]] double volts() { return bench_.volts("rail"); }
  /// Until the rail has fallen to `low_v`; by a straight line between readings `every_s` apart.
  [[nodiscard]] double lasts_s(double low_v, double every_s) {
    double before_v = volts();
    double at_s = 0.0;
    while (true) {
      bench_.go(every_s);
      const double now_v = volts();
      if (now_v <= low_v) return at_s + every_s * (before_v - low_v) / (before_v - now_v);
      before_v = now_v;
      at_s += every_s;
    }
  }

 private:
  PartBench bench_{25.0, 1e-7};
};

LoadDraw power(double watts) { return {.power_w = watts, .resistive_below_v = 1.0}; }

}  // namespace

TEST_CASE("hold-up at constant power: 57.1 uF carry 100 W from 400 to 300 V for 20 ms (read)") {
  CHECK(relative_error(Gap(57.14e-6, 400.0, power(100.0)).lasts_s(300.0, 1e-4), 20e-3) < 1e-3);
  CHECK(relative_error(Gap(114.3e-6, 400.0, power(200.0)).lasts_s(300.0, 1e-4), 20e-3) < 1e-3);
}

TEST_CASE("hold-up of 2200 uF from 12 to 10.8 V: 2.508 ms at 12 W, 2.640 at 1 A, 2.782 at 12 Ohm") {
  const double at_power = Gap(2200e-6, 12.0, power(12.0)).lasts_s(10.8, 1e-5);
  const double at_current = Gap(2200e-6, 12.0, {.current_a = 1.0}).lasts_s(10.8, 1e-5);
  const double at_resistance =
      Gap(2200e-6, 12.0, {.conductance_s = 1.0 / 12.0}).lasts_s(10.8, 1e-5);
  CHECK(relative_error(at_power, 2.508e-3) < 1e-3);
  CHECK(relative_error(at_current, 2.640e-3) < 1e-3);
  CHECK(relative_error(at_resistance, 2.782e-3) < 1e-3);
  // Constant power is the worst case, whatever the numbers.
  CHECK(at_power < at_current);
  CHECK(at_current < at_resistance);
}

TEST_CASE("a relay's gap of 15 ms at 18 W and 12 V asks for 19.7 mF (computed)") {
  CHECK(relative_error(Gap(19.7e-3, 12.0, power(18.0)).lasts_s(10.8, 1e-4), 15e-3) < 2e-3);
}

TEST_CASE("series resistance takes its step at once: 2 A through 50 mOhm are 0.100 V (computed)") {
  Gap gap(2200e-6, 12.0, {.current_a = 2.0}, 0.05);
  gap.go(1e-9);
  CHECK(std::abs(12.0 - gap.volts() - 0.100) < 1e-6);
}

TEST_CASE(
    "usable share of a capacitor's energy: 40.8 % from 390 to 300 V, 19 % at a tenth (read)") {
  const Capacitance store{.capacitance_f = 1e-3};
  const auto usable = [&](double full_v, double low_v) {
    return 1.0 - store.stored(&low_v) / store.stored(&full_v);
  };
  CHECK(std::abs(usable(390.0, 300.0) - 0.408) < 5e-4);
  CHECK(std::abs(usable(12.0, 10.8) - 0.19) < 5e-4);
}

#include "cell/steps.hpp"

#include <cmath>
#include <random>
#include <vector>

#include <doctest/doctest.h>

using namespace tideover;
using cell::Log;
using cell::Step;
using Kind = cell::Step::Kind;

namespace {

/// Writes a log as a tester would: a cell of 3 Ah with 40 mOhm, straight rest voltage.
class Bench {
 public:
  explicit Bench(double step_s, double noise_share = 0.0) : step_s_(step_s), noise_(noise_share) {
    log.cell = "bench";
    log.current_between = cell::Between::Before;
    log.time_s = {0.0};
    log.voltage_v = {rest_v()};
    log.current_a = {0.0};
  }

  void current(double current_a, double lasts_s) {
    for (double end_s = now_s_ + lasts_s; now_s_ < end_s - 1e-9;) sample(current_a);
  }
  void power(double power_w, double lasts_s) {
    for (double end_s = now_s_ + lasts_s; now_s_ < end_s - 1e-9;) {
      const double open_v = rest_v();
      const double root = std::sqrt(open_v * open_v + 4.0 * ohm * power_w);
      sample((root - open_v) / (2.0 * ohm));
    }
  }
  void hold(double volts, double until_a) {
    const double rise_ohm = 1.2 / 10800.0 * step_s_;  // of the rest voltage within the sample
    while ((volts - rest_v()) / (ohm + rise_ohm) > until_a)
      sample((volts - rest_v()) / (ohm + rise_ohm));
  }
  void resistor(double load_ohm, double lasts_s) {
    for (double end_s = now_s_ + lasts_s; now_s_ < end_s - 1e-9;)
      sample(-rest_v() / (load_ohm + ohm));
  }
  std::vector<Step> steps() {
    double largest_a = 0.0;
    for (const double a : log.current_a) largest_a = std::max(largest_a, std::abs(a));
    log.step_a = 0.05 * largest_a;
    log.sections = {{.first = 0, .end = log.size()}};
    return cell::find_steps(log);
  }
  [[nodiscard]] double rest_v() const { return 3.0 + 1.2 * charge_as_ / 10800.0; }

  Log log;
  double charge_as_ = 8000.0;

 private:
  void sample(double current_a) {
    std::normal_distribution<double> normal;
    charge_as_ += current_a * step_s_;
    now_s_ += step_s_;
    log.time_s.push_back(now_s_);
    log.voltage_v.push_back(rest_v() + ohm * current_a + 0.5e-3 * (noise_ > 0.0) * normal(any_));
    log.current_a.push_back(current_a + noise_ * normal(any_));
  }

  static constexpr double ohm = 0.04;
  double step_s_;
  double noise_;
  double now_s_ = 0.0;
  std::mt19937 any_{7};
};

std::vector<Kind> kinds(const std::vector<Step>& steps) {
  std::vector<Kind> kinds;
  for (const Step& step : steps) kinds.push_back(step.kind);
  return kinds;
}

}  // namespace

TEST_CASE("given a capacity test, when it is read, then its steps are told as they were made") {
  Bench bench(1.0);
  bench.current(0.0, 300.0);
  bench.current(-2.9, 1800.0);
  bench.current(0.0, 600.0);
  bench.current(1.5, 1200.0);
  bench.hold(bench.rest_v() + 0.06, 0.1);
  bench.current(0.0, 300.0);
  const std::vector<Step> steps = bench.steps();
  REQUIRE(kinds(steps) == std::vector{Kind::Rest, Kind::ConstantCurrent, Kind::Rest,
                                      Kind::ConstantCurrent, Kind::ConstantVoltage, Kind::Rest});
  CHECK(steps[1].lasts_s() == doctest::Approx(1800.0));
  CHECK(steps[1].charge_as == doctest::Approx(-5220.0));
  CHECK(steps[1].energy_j == doctest::Approx(-5220.0 * steps[1].mean_voltage_v));
  CHECK(steps[1].before_v - steps[1].start_v == doctest::Approx(0.04 * 2.9).epsilon(0.01));
  CHECK(cell::sentence(steps[0]) == "Rested for 5 min, 3.89 V to 3.89 V");
  CHECK(cell::sentence(steps[1]) == "Discharged at 2.90 A for 30 min, 1.45 Ah, 3.77 V to 3.19 V");
  // The last samples before the voltage is held have that voltage nearly.
  CHECK(std::abs(steps[3].lasts_s() - 1200.0) <= 3.0);
  CHECK(cell::sentence(steps[3]).find("Charged at 1.50 A for ") == 0);
  CHECK(cell::sentence(steps[4]).find("Held at 3.57 V for ") == 0);
  CHECK(cell::sentence(steps[4]).find("A falling to 100 mA") != std::string::npos);
}

TEST_CASE("the steps of a section hold every sample and every second once") {
  Bench bench(1.0, 0.004);
  bench.current(0.0, 100.0);
  for (int k = 0; k < 50; ++k) bench.current(-0.1 * (k * 7 % 23), 3.0);
  bench.current(0.0, 100.0);
  bench.power(-5.0, 400.0);
  const std::vector<Step> steps = bench.steps();
  REQUIRE_FALSE(steps.empty());
  CHECK(steps.front().first == 0);
  CHECK(steps.back().end == bench.log.size());
  double charge_as = 0.0;
  for (std::size_t s = 0; s < steps.size(); ++s) {
    charge_as += steps[s].charge_as;
    if (s == 0) continue;
    CHECK(steps[s].first == steps[s - 1].end);
    CHECK(steps[s].begin_s == steps[s - 1].end_s);
  }
  CHECK(charge_as == doctest::Approx(charge_between_as(bench.log, 0, bench.log.size() - 1)));
}

TEST_CASE("constant power is told from constant current") {
  Bench bench(1.0);
  bench.current(0.0, 60.0);
  bench.power(-10.0, 1500.0);
  bench.current(0.0, 60.0);
  const std::vector<Step> steps = bench.steps();
  REQUIRE(kinds(steps) == std::vector{Kind::Rest, Kind::ConstantPower, Kind::Rest});
  CHECK(steps[1].mean_power_w == doctest::Approx(-10.0).epsilon(0.001));
  CHECK(cell::sentence(steps[1]).find("Discharged at 10.0 W for 25 min, ") == 0);
}

TEST_CASE("short currents between rests are pulses, the same current for long is not") {
  Bench bench(0.1);
  for (const double current_a : {-1.45, -2.9, 2.9}) {
    bench.current(0.0, 120.0);
    bench.current(current_a, 10.0);
  }
  bench.current(0.0, 120.0);
  bench.current(-2.9, 300.0);
  bench.current(0.0, 120.0);
  const std::vector<Step> steps = bench.steps();
  REQUIRE(kinds(steps) == std::vector{Kind::Rest, Kind::Pulse, Kind::Rest, Kind::Pulse, Kind::Rest,
                                      Kind::Pulse, Kind::Rest, Kind::ConstantCurrent, Kind::Rest});
  CHECK(cell::sentence(steps[3]) == "Discharging pulse of 2.90 A for 10.0 s, 3.89 V to 3.77 V");
  CHECK(cell::sentence(steps[5]).find("Charging pulse of 2.90 A") == 0);
}

TEST_CASE("noise on current and voltage does not tear steps apart") {
  Bench bench(0.1, 0.01);  // 10 mA standard deviation
  bench.current(0.0, 300.0);
  bench.current(-2.0, 600.0);
  bench.current(0.0, 300.0);
  bench.current(1.0, 600.0);
  bench.current(0.0, 300.0);
  const std::vector<Step> steps = bench.steps();
  REQUIRE(kinds(steps) == std::vector{Kind::Rest, Kind::ConstantCurrent, Kind::Rest,
                                      Kind::ConstantCurrent, Kind::Rest});
  CHECK(steps[3].mean_current_a == doctest::Approx(1.0).epsilon(0.002));
}

TEST_CASE("a resistor as load and a drive are varying, each in one step") {
  Bench resistor(1.0);
  resistor.current(0.0, 60.0);
  resistor.resistor(2.0, 3000.0);
  resistor.current(0.0, 60.0);
  CHECK(kinds(resistor.steps()) == std::vector{Kind::Rest, Kind::Varying, Kind::Rest});
  Bench drive(1.0);
  drive.current(0.0, 120.0);
  for (int k = 0; k < 400; ++k) drive.current(k % 5 == 0 ? 0.5 : -0.2 * (k * 11 % 17), 2.0);
  drive.current(0.0, 120.0);
  CHECK(kinds(drive.steps()) == std::vector{Kind::Rest, Kind::Varying, Kind::Rest});
}

TEST_CASE("a log of one sample, or of none, has steps without trouble") {
  Log log;
  CHECK(cell::find_steps(log).empty());
  log.time_s = {5.0};
  log.voltage_v = {3.7};
  log.current_a = {-1.0};
  log.sections = {{.first = 0, .end = 1}};
  const std::vector<Step> steps = cell::find_steps(log);
  REQUIRE(steps.size() == 1);
  CHECK(steps[0].lasts_s() == 0.0);
  CHECK(steps[0].mean_current_a == -1.0);
}

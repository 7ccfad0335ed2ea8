// Converters against published relations. Duty and gain: volt-second balance, printed in
// SLVA477B-class application notes and in Erickson and Maksimovic, Fundamentals of Power
// Electronics, ch. 2 and 3. "read": the relation was seen there; "from memory" else. The figures
// are arithmetic on the relation, good to 0.1 %.
#include "part/converter/converter.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "part/converter/duty.hpp"
#include "support/part_bench.hpp"

namespace {

using namespace tideover;
using namespace quantity;
using namespace quantity::literals;
using part::Converter;
using part::PowerStage;
using part::Topology;
using tests::stated;

Converter lossless(Topology topology, Volt output, Ampere rated) {
  Converter c;
  c.topology = topology;
  c.output = stated(output);
  c.rated = stated(rated);
  c.limit = stated(2.0 * rated);
  c.idle_draw = stated(0.0_A);
  c.linear_loss = stated(0.0_V);
  c.square_loss = stated(0.0_Ohm);
  return c;
}

/// Input current [A] of a law at the given voltages and soft start done.
double input_a(const PowerStage& law, double v_in, double v_out) {
  const double u[5] = {v_in, 0.0, v_out, 0.0, 300.0};
  const double x[2] = {1.0, v_out};
  double flow[5];
  double rate[2];
  law.equations(u, x, flow, rate);
  return flow[0];
}

/// Output voltage at which the law gives what a resistance takes.
double loaded_v(const PowerStage& law, double v_in, double load_ohm) {
  double low = 0.0;
  double high = 200.0;
  while (high - low > 1e-9) {
    const double v = 0.5 * (low + high);
    (law.output_a(v_in, v, 1.0) > v / load_ohm ? low : high) = v;
  }
  return low;
}

}  // namespace

TEST_CASE(
    "step-down duty, 12 V to 5 V: 0.4167, with 88 % efficiency 0.4735 (application note, read)") {
  CHECK(part::step_down_duty(5.0_V, 12.0_V) == doctest::Approx(0.4167).epsilon(1e-3));
  CHECK(part::step_down_duty(5.0_V, 12.0_V, 0.88) == doctest::Approx(0.4735).epsilon(1e-3));
}

TEST_CASE("step-down duty with drops of 0.5 V and 0.2 V: 0.4472 (volt-second balance)") {
  CHECK(part::step_down_duty(5.0_V, 12.0_V, 0.5_V, 0.2_V) == doctest::Approx(0.4472).epsilon(1e-3));
}

TEST_CASE(
    "step-down drop-out: 12 V at 90 % needs 13.33 V, 9 V at 95 % needs 9.47 V (volt-second "
    "balance)") {
  Converter c = lossless(Topology::StepDown, 12.0_V, 1.0_A);
  c.highest_duty = stated(90.0_percent);
  CHECK(c.lowest_input(12.0_V, 0.0_A).si() == doctest::Approx(13.33).epsilon(1e-3));
  c.highest_duty = stated(95.0_percent);
  CHECK(c.lowest_input(9.0_V, 0.0_A).si() == doctest::Approx(9.47).epsilon(1e-3));
}

TEST_CASE("step-up duty, 7.2 V to 12 V: 0.400, with 90 % efficiency 0.460 (volt-second balance)") {
  CHECK(part::step_up_duty(12.0_V, 7.2_V) == doctest::Approx(0.400).epsilon(1e-3));
  CHECK(part::step_up_duty(12.0_V, 7.2_V, 0.9) == doctest::Approx(0.460).epsilon(1e-3));
  CHECK(part::step_up_gain(0.400) == doctest::Approx(12.0 / 7.2).epsilon(1e-9));
}

TEST_CASE(
    "step-up input current for 12 W at 90 %: 1.852 A from 7.2 V, 2.222 A from 6.0 V (power "
    "balance)") {
  // Set above 12 V, so that at 12 V the current limit of 1 A rules.
  Converter c = lossless(Topology::StepUp, 13.0_V, 1.0_A);
  c.limit = stated(1.0_A);
  // 90 % at 1 A: 12 W / 0.9 - 12 W lost, all of it in the term linear in the current.
  c.linear_loss = stated(Volt::of_si(12.0 / 0.9 - 12.0));
  const PowerStage law = c.stage();
  CHECK(law.output_a(7.2, 12.0, 1.0) == doctest::Approx(1.0));
  CHECK(input_a(law, 7.2, 12.0) == doctest::Approx(1.852).epsilon(1e-3));
  CHECK(input_a(law, 6.0, 12.0) == doctest::Approx(2.222).epsilon(1e-3));
}

TEST_CASE(
    "step-up with winding resistance: gain 1.935 at duty 0.5, at most 3.54 for R/RL = 50 (Erickson "
    "and Maksimovic ch. 3, from memory)") {
  Converter c = lossless(Topology::StepUp, 60.0_V, 20.0_A);
  c.input_limit = stated(60.0_A);
  c.path_resistance = stated(0.1_Ohm);
  c.highest_duty = stated(50.0_percent);
  CHECK(loaded_v(c.stage(), 5.0, 12.0) / 5.0 == doctest::Approx(1.935).epsilon(1e-3));

  c.highest_duty = stated(98.0_percent);
  c.path_resistance = stated(0.24_Ohm);
  CHECK(loaded_v(c.stage(), 5.0, 12.0) / 5.0 == doctest::Approx(3.54).epsilon(1e-3));
}

TEST_CASE("linear regulator 12 V to 5 V at 1 A: 41.7 %, 7 W of heat (power balance)") {
  // Set above 5 V, so that at 5 V the current limit of 1 A rules.
  Converter c = lossless(Topology::Linear, 6.0_V, 1.0_A);
  c.limit = stated(1.0_A);
  const PowerStage law = c.stage();
  const double i = law.output_a(12.0, 5.0, 1.0);
  CHECK(i == doctest::Approx(1.0));
  const double in_w = 12.0 * input_a(law, 12.0, 5.0);
  CHECK(5.0 * i / in_w == doctest::Approx(0.417).epsilon(1e-3));
  CHECK(in_w - 5.0 * i == doctest::Approx(7.0).epsilon(1e-3));
}

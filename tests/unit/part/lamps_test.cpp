// Resistors, indicator lamps and charge indicators: what small consumers draw.
#include <doctest/doctest.h>

#include "part/led/led.hpp"
#include "part/led/led_law.hpp"
#include "part/level_indicator/indicator_draw.hpp"
#include "part/level_indicator/level_indicator.hpp"
#include "part/resistor/resistor.hpp"
#include "support/part_bench.hpp"

namespace {

using namespace tideover;
using namespace tideover::quantity::literals;
using tests::BenchSupply;
using tests::PartBench;
using tests::stated;

/// The part on 24 V for as long as its body needs to get warm.
PartBench on_24_v(const part::Part& part, const std::string& plus, const std::string& minus) {
  PartBench bench;
  bench.install(part, {{plus, "rail"}, {minus, "0"}});
  bench.net.add(BenchSupply{.volts = 24.0, .ohms = 1e-3}, {bench.point("rail"), bench.point("0")},
                "supply");
  bench.start();
  bench.go(3600.0);
  return bench;
}

part::IndicatorStep lamp(quantity::Volt above, quantity::Ampere draws) {
  part::IndicatorStep step;
  step.above = stated(above);
  step.draws = stated(draws);
  return step;
}

}  // namespace

TEST_CASE("given 2.7 kohm on 24 V, then a quarter-watt resistor runs 73 K above its air") {
  part::Resistor resistor;
  resistor.name = "bleeder";
  resistor.resistance = stated(2.7_kOhm);
  PartBench bench = on_24_v(resistor, "a", "b");
  const double heat_w = 24.0 * 24.0 / 2700.0;
  CHECK(bench.reads("bleeder", "power") == doctest::Approx(heat_w).epsilon(1e-4));
  CHECK(bench.reads("bleeder", "body temperature") ==
        doctest::Approx(298.15 + 340.0 * heat_w).epsilon(1e-4));
}

TEST_CASE("given an indicator lamp of 2 V behind 2.2 kohm on 24 V, then it draws 10 mA") {
  part::Led led;
  led.name = "on_lamp";
  led.series = stated(2.2_kOhm);
  PartBench bench = on_24_v(led, "plus", "minus");
  CHECK(bench.reads("on_lamp", "current") == doctest::Approx(10e-3).epsilon(1e-4));
  CHECK(bench.reads("on_lamp", "power in the resistor") == doctest::Approx(0.22).epsilon(1e-3));
}

TEST_CASE(
    "an indicator lamp the wrong way round, or below its voltage, draws nothing to speak of") {
  const part::LedLaw law{.forward_v = 2.0, .series_ohm = 2200.0};
  CHECK(law.current_a_at(-24.0) == doctest::Approx(-24e-9));
  CHECK(law.current_a_at(1.5) < 1e-8);
}

TEST_CASE(
    "given a charge indicator with three lamps, then each adds its draw above its threshold") {
  part::LevelIndicator indicator;
  indicator.name = "charge_bar";
  indicator.draws = stated(2_mA);
  indicator.steps = {lamp(16_V, 3_mA), lamp(18_V, 3_mA), lamp(20_V, 3_mA)};
  CHECK(indicator.contradictions().empty());
  PartBench bench = on_24_v(indicator, "plus", "minus");
  CHECK(bench.reads("charge_bar", "current") == doctest::Approx(11e-3));
}

TEST_CASE("a charge indicator's draw in steps, and its fading below its lowest voltage") {
  part::IndicatorDraw law{.current_a = 2e-3, .resistive_below_v = 3.0};
  law.steps[0] = {16.0, 3e-3};
  law.step_count = 1;
  CHECK(law.current_a_at(15.9) == doctest::Approx(2e-3));
  CHECK(law.current_a_at(16.1) == doctest::Approx(5e-3));
  CHECK(law.current_a_at(16.0) == doctest::Approx(3.5e-3));
  CHECK(law.current_a_at(1.5) == doctest::Approx(1e-3));
}

TEST_CASE("lamps of a charge indicator must rise") {
  part::LevelIndicator indicator;
  indicator.steps = {lamp(18_V, 3_mA), lamp(16_V, 3_mA)};
  CHECK(indicator.contradictions().size() == 1);
}

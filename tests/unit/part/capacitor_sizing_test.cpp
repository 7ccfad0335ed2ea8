// Which capacitor there is to buy.
#include <doctest/doctest.h>

#include "part/capacitor/sizing.hpp"
#include "part/preferred_value.hpp"

using namespace tideover::part;
using namespace tideover::quantity::literals;

TEST_CASE("of E6 the next one upwards is taken, also in the next decade") {
  const auto next = [](tideover::quantity::Farad wanted) {
    return preferred_at_least(wanted, Series::E6).si();
  };
  CHECK(next(100.0_uF) == doctest::Approx(100e-6));
  CHECK(next(101.0_uF) == doctest::Approx(150e-6));
  CHECK(next(471.0_uF) == doctest::Approx(680e-6));
  CHECK(next(690.0_uF) == doctest::Approx(1e-3));
  CHECK(preferred_at_least(19.7_mF, Series::E12).si() == doctest::Approx(22e-3));
}

TEST_CASE("a rated voltage leaves a fifth") {
  CHECK(rated_voltage_above(5.0_V).si() == doctest::Approx(6.3));
  CHECK(rated_voltage_above(12.0_V).si() == doctest::Approx(16.0));
  CHECK(rated_voltage_above(12.9_V).si() == doctest::Approx(25.0));
  CHECK(rated_voltage_above(24.2_V).si() == doctest::Approx(35.0));
  CHECK(rated_voltage_above(58.0_V).si() == doctest::Approx(80.0));
}

TEST_CASE("larger capacitors have less series resistance, within what is sold") {
  CHECK(usual_esr(1000.0_uF).si() == doctest::Approx(0.05));
  CHECK(usual_esr(1.0_uF).si() == doctest::Approx(2.0));
  CHECK(usual_esr(100.0_mF).si() == doctest::Approx(2e-3));
}

// Air that carries heat away, and fans at reduced voltage.
#include <array>
#include <cmath>

#include <doctest/doctest.h>

#include "part/air_properties.hpp"
#include "part/fan/fan.hpp"
#include "part/fan/fan_laws.hpp"
#include "support/closeness.hpp"

namespace {

using namespace tideover;
using namespace tideover::quantity::literals;
using quantity::CubicMetrePerSecond;
using tests::relative_error;

constexpr double cubic_foot_per_minute = 0.3048 * 0.3048 * 0.3048 / 60.0;

double cfm(double watts, double rise_k, quantity::Temperature entering) {
  return part::airflow_for(quantity::Watt::of_si(watts), quantity::Kelvin::of_si(rise_k), entering)
             .si() /
         cubic_foot_per_minute;
}

part::Fan labelled_12_v_fan() {
  part::Fan fan;
  fan.name = "fan";
  fan.rated_voltage = quantity::Value(12_V);
  fan.rated_current = quantity::Value(100_mA);
  fan.rated_current.given = true;
  return fan;
}

part::FanPoint point(quantity::Volt voltage, quantity::Ampere current) {
  part::FanPoint made;
  made.voltage = quantity::Value(voltage);
  made.current = quantity::Value(current);
  return made;
}

}  // namespace

TEST_CASE(
    "airflow for a watt and a kelvin: 1.749, 1.779, 1.869 CFM at 20, 25, 40 degC, calculated") {
  CHECK(relative_error(cfm(1.0, 1.0, 20_degC), 1.749) < 3e-3);
  CHECK(relative_error(cfm(1.0, 1.0, 25_degC), 1.779) < 3e-3);
  CHECK(relative_error(cfm(1.0, 1.0, 40_degC), 1.869) < 3e-3);
  // The same in cubic metres per hour: 2.97 to 3.17.
  const auto hourly = [](quantity::Temperature at) {
    return part::airflow_for(1_W, 1_K, at).si() * 3600.0;
  };
  CHECK(relative_error(hourly(20_degC), 2.97) < 3e-3);
  CHECK(relative_error(hourly(40_degC), 3.17) < 3e-3);
}

TEST_CASE(
    "airflow for 100 W and 35 K, 500 W and 15 K, 20 W and 10 K, parkermotion read, calculated") {
  CHECK(relative_error(cfm(100.0, 35.0, 22_degC), 5.03) < 0.01);
  CHECK(relative_error(cfm(500.0, 15.0, 22_degC), 58.7) < 0.01);
  CHECK(relative_error(cfm(20.0, 10.0, 22_degC), 3.52) < 0.01);
}

TEST_CASE("airflow of 2.64 CFM for 100 W and 35 K is refused: a supplier's page, read") {
  // The page divides watts and kelvin by a factor that is for BTU per hour and degrees Fahrenheit.
  CHECK(cfm(100.0, 35.0, 22_degC) > 1.85 * 2.64);
  CHECK(cfm(500.0, 15.0, 22_degC) > 1.85 * 30.9);
}

TEST_CASE("fan laws at 0.8 of the speed, from memory") {
  const part::FanAtSpeed slower = part::fan_at_speed(0.8);
  CHECK(relative_error(slower.flow, 0.80) < 1e-3);
  CHECK(relative_error(slower.pressure, 0.64) < 1e-3);
  CHECK(relative_error(slower.power, 0.512) < 1e-3);
  CHECK(std::abs(slower.noise_db + 4.8) < 0.05);
}

TEST_CASE(
    "a measured fan: 150 mA at 12 V takes 71 mA at 6 V whatever its label says, common practice, "
    "no source") {
  part::Fan fan = labelled_12_v_fan();
  fan.measured.push_back(point(12_V, 150_mA));
  CHECK(fan.contradictions().empty());
  CHECK(fan.law().current_a_at(12.0) == doctest::Approx(0.150));
  CHECK(std::abs(fan.law().current_a_at(6.0) - 0.071) < 0.010);
}

TEST_CASE("a fan known by its label alone draws what the label says at rated voltage") {
  CHECK(labelled_12_v_fan().law().current_a_at(12.0) == doctest::Approx(0.100));
}

TEST_CASE("a fan measured at two voltages keeps both points") {
  part::Fan fan = labelled_12_v_fan();
  fan.measured.push_back(point(12_V, 150_mA));
  fan.measured.push_back(point(7_V, 95_mA));
  CHECK(fan.contradictions().empty());
  CHECK(fan.law().current_a_at(12.0) == doctest::Approx(0.150));
  CHECK(fan.law().current_a_at(7.0) == doctest::Approx(0.095));
}

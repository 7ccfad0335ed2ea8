// Preferred numbers and the resistor of an indicator lamp.
#include "part/preferred_value.hpp"

#include <array>
#include <cmath>
#include <vector>

#include <doctest/doctest.h>

#include "part/led/led.hpp"
#include "part/led/led_law.hpp"
#include "support/closeness.hpp"

namespace {

using namespace tideover;
using namespace tideover::quantity::literals;
using part::Series;

std::vector<int> values(Series series) {
  const auto decade = part::decade_of(series);
  return {decade.begin(), decade.end()};
}

}  // namespace

TEST_CASE("E12 and E24 of IEC 60063, qsl.net/g4usp, read") {
  CHECK(values(Series::E12) == std::vector{10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82});
  CHECK(values(Series::E24) == std::vector{10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30,
                                           33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91});
}

TEST_CASE("E24 differs from the rounded power of ten at eight values, read lists and calculated") {
  const auto e24 = values(Series::E24);
  std::vector<int> rounded_where_off;
  std::vector<int> printed_where_off;
  for (std::size_t n = 0; n < e24.size(); ++n) {
    const int rounded =
        static_cast<int>(std::lround(10.0 * std::pow(10.0, static_cast<double>(n) / 24.0)));
    if (rounded == e24[n]) continue;
    rounded_where_off.push_back(rounded);
    printed_where_off.push_back(e24[n]);
  }
  CHECK(rounded_where_off == std::vector{26, 29, 32, 35, 38, 42, 46, 83});
  CHECK(printed_where_off == std::vector{27, 30, 33, 36, 39, 43, 47, 82});
}

TEST_CASE("4.2 and 8.3 are no preferred values, though pages print them, read") {
  CHECK(part::nearest_preferred(4.2_Ohm, Series::E24).si() == doctest::Approx(4.3));
  CHECK(part::nearest_preferred(83_Ohm, Series::E24).si() == doctest::Approx(82.0));
  CHECK(part::nearest_preferred(83_Ohm, Series::E12).si() == doctest::Approx(82.0));
}

TEST_CASE("E96 starts 100 102 105 107 110 113 115 118 121 and ends 976, read") {
  const auto e96 = values(Series::E96);
  REQUIRE(e96.size() == 96);
  CHECK(std::vector(e96.begin(), e96.begin() + 9) ==
        std::vector{100, 102, 105, 107, 110, 113, 115, 118, 121});
  CHECK(e96.back() == 976);
}

TEST_CASE(
    "indicator at 12 V, 2.1 V, 10 mA: 1.0 kohm, 9.9 mA, 12.3 mA and 0.151 W at 14.4 V, "
    "calculated") {
  const auto series = part::led_series_resistor(12_V, 2.1_V, 10_mA, Series::E12);
  CHECK(series.si() == doctest::Approx(1000.0));
  const part::LedLaw lamp{.forward_v = 2.1, .series_ohm = series.si()};
  CHECK(tests::relative_error(lamp.current_a_at(12.0), 9.9e-3) < 1e-3);
  const double at_full_charge_a = lamp.current_a_at(14.4);
  CHECK(tests::relative_error(at_full_charge_a, 12.3e-3) < 1e-3);
  const double heat_w = at_full_charge_a * at_full_charge_a * series.si();
  CHECK(tests::relative_error(heat_w, 0.151) < 3e-3);
  CHECK(heat_w < part::Led().series_rated.si());
}

TEST_CASE("indicator at 5 V, 3.0 V, 5 mA: 390 ohm of E12 and E24, 402 of E96, calculated") {
  CHECK(part::led_series_resistor(5_V, 3_V, 5_mA, Series::E12).si() == doctest::Approx(390.0));
  CHECK(part::led_series_resistor(5_V, 3_V, 5_mA, Series::E24).si() == doctest::Approx(390.0));
  CHECK(part::led_series_resistor(5_V, 3_V, 5_mA, Series::E96).si() == doctest::Approx(402.0));
}

TEST_CASE("the nearest preferred value may stand in the next decade") {
  CHECK(part::nearest_preferred(9.8_kOhm, Series::E12).si() == doctest::Approx(10000.0));
  CHECK(part::nearest_preferred(0.99_Ohm, Series::E24).si() == doctest::Approx(1.0));
}

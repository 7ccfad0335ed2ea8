#include "quantity/show.hpp"

#include <cmath>
#include <limits>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "quantity/text.hpp"
#include "quantity/unit_table.hpp"

using namespace tideover::quantity;
using namespace tideover::quantity::literals;

TEST_CASE("given a quantity, then it is shown in the unit that fits its size") {
  CHECK(show(24.06_V) == "24.1 V");
  CHECK(show(0.65_A) == "650 mA");
  CHECK(show(999.96_mV) == "1 V");
  CHECK(show(0_V) == "0 V");
  CHECK(show(-3_mV) == "-3 mV");
  CHECK(show(4700_Ohm) == "4.7 kOhm");
  CHECK(show(2.9_Ah) == "2.9 Ah");
  CHECK(show(300_mW) == "300 mW");
  CHECK(show(1000_uF) == "1 mF");
  CHECK(show(80_percent) == "80 %");
  CHECK(show(0.75_mm2) == "0.75 mm2");
  CHECK(show(180_mm) == "180 mm");
  CHECK(show(24.0617_V, 5) == "24.062 V");
  CHECK(show(Volt::of_si(std::numeric_limits<double>::infinity())) == "infinite");
  CHECK(show(Volt::of_si(std::nan(""))) == "not a number");
}

TEST_CASE("given a time, then it is shown as people say it") {
  CHECK(show(4_h + 12_min) == "4 h 12 min");
  CHECK(show(4_h) == "4 h");
  CHECK(show(Second::of_si(3599.8)) == "1 h");
  CHECK(show(90_s) == "1 min 30 s");
  CHECK(show(12.34_s) == "12.3 s");
  CHECK(show(59.97_s) == "1 min");
  CHECK(show(7.5_ms) == "7.5 ms");
  CHECK(show(36_h) == "36 h");
  CHECK(show(50_h) == "2 d 2 h");
  CHECK(show(90_d) == "90 d");
  CHECK(show(1826_d) == "5 yr");
  CHECK(show(-(2_h)) == "-2 h");
  CHECK(show(0_s) == "0 s");
}

TEST_CASE("given a temperature, then whole degrees are enough unless more are asked for") {
  CHECK(show(38.2_degC) == "38 degC");
  CHECK(show(38.24_degC, 4) == "38.2 degC");
  CHECK(show(Temperature::of_celsius(-0.2)) == "0 degC");
  CHECK(show(5.25_K) == "5.25 K");
}

TEST_CASE("given a tolerance, then it is shown with the value") {
  CHECK(show(Value<Volt>(23.859_V, 24.1_V, 24.341_V)) == "24.1 V +/- 1 %");
  CHECK(show(Value<Farad>(800_uF, 1000_uF, 1300_uF)) == "800 uF to 1.3 mF");
  CHECK(show(Value<Temperature>(20_degC, 22_degC, 24_degC)) == "22 degC +/- 2 K");
  CHECK(show(Span<Volt>(20_V, 28_V)) == "20 V to 28 V");
  CHECK(show(Value<Volt>(12_V)) == "12 V");
}

TEST_CASE("given a dimension without a name, then base units are spelled out") {
  CHECK(show(2_V * 3_m) == "6 m3.kg.s-3.A-1");
}

TEST_CASE("given any quantity, when it is shown and read, then the value holds to its digits") {
  CHECK(rc::check("shown then read", [] {
    const auto unit =
        *rc::gen::elementOf(std::vector<Unit>(unit_table().begin(), unit_table().end()));
    const double number = *rc::gen::map(rc::gen::inRange(1, 1'000'000),
                                        [](int n) { return static_cast<double>(n) * 1e-3; });
    const double si = number * unit.multiply / unit.divide + unit.offset;
    const int digits = *rc::gen::inRange(2, 12);
    const std::string text = show_si(si, unit.measure, digits);
    const auto read = read_amount(text, unit.measure, Form::Exact);
    RC_ASSERT(read.has_value());
    // Half a unit of the last digit; temperatures have a fixed step, times two whole units.
    double slack = 0.5 * std::pow(10.0, 1 - digits) * std::abs(si) * (1.0 + 1e-9);
    if (unit.measure.is_point) slack = 0.5 * std::pow(10.0, std::min(0, 3 - digits)) + 1e-9;
    if (unit.measure == measure_of<Second>() && si >= 59.0) slack = std::max(slack, 0.021 * si);
    RC_ASSERT(std::abs(read.value().nominal_si - si) <= slack);
  }));
}

TEST_CASE("given any quantity, when it is written exactly and read, then it is the same double") {
  CHECK(rc::check("exact", [] {
    const auto unit =
        *rc::gen::elementOf(std::vector<Unit>(unit_table().begin(), unit_table().end()));
    const double si = *rc::gen::suchThat(rc::gen::arbitrary<double>(), [](double x) {
      return std::isfinite(x) && std::abs(x) < 1e100;
    });
    if (unit.measure.is_point) return;
    const auto read = read_amount(exact_text(si, unit.measure), unit.measure, Form::Exact);
    RC_ASSERT(read.has_value());
    const double got = read.value().nominal_si;
    const bool is_next = unit.measure == measure_of<Ratio>() &&
                         (got == std::nextafter(si, 1e300) || got == std::nextafter(si, -1e300));
    RC_ASSERT(got == si || is_next);
  }));
}

TEST_CASE("given amounts of a sheet, when written back, then they are short and the same") {
  for (const char* text :
       {"24.1 V +/- 1 %", "20 V to 28 V", "650 mV", "12 V +/- 0.1 V", "10 V +5 % -10 %"}) {
    const Measure volts = measure_of<Volt>();
    const Amount amount = read_amount(text, volts, Form::Value).value();
    const std::string written = exact_text(amount, volts);
    CAPTURE(written);
    const Amount again = read_amount(written, volts, Form::Value).value();
    CHECK(again.nominal_si == amount.nominal_si);
    CHECK(again.low_si == doctest::Approx(amount.low_si).epsilon(1e-15));
    CHECK(again.high_si == doctest::Approx(amount.high_si).epsilon(1e-15));
    CHECK(written.size() <= 20);
  }
  CHECK(exact_text(read_amount("24.1 V +/- 1 %", measure_of<Volt>(), Form::Value).value(),
                   measure_of<Volt>()) == "24.1 V +/- 1 %");
}

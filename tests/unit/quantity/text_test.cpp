#include "quantity/text.hpp"

#include <regex>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "quantity/unit_table.hpp"

using namespace tideover::quantity;
using tideover::base::show;

namespace {

template <class Type>
Value<Type> value(std::string_view text) {
  const auto read = read_value<Type>(text);
  if (!read) FAIL(show(read.problems()));
  return read.value();
}

template <class Type>
void check_ends(std::string_view text, double low, double nominal, double high) {
  CAPTURE(text);
  const Value<Type> got = value<Type>(text);
  // One rounding each for the unit, the share and the sum.
  const double slack = 4.0 * std::numeric_limits<double>::epsilon();
  CHECK(got.low_si == doctest::Approx(low).epsilon(slack));
  CHECK(got.nominal_si == doctest::Approx(nominal).epsilon(slack));
  CHECK(got.high_si == doctest::Approx(high).epsilon(slack));
  CHECK(got.given);
}

template <class Type>
std::string refusal(std::string_view text) {
  const auto read = read_value<Type>(text);
  if (read) return "read as " + exact_text(read.value(), measure_of<Type>());
  const auto& problem = read.problems().at(0);
  return std::to_string(problem.place.column) + "+" + std::to_string(problem.place.length) + ": " +
         problem.text + " | " + problem.remedy;
}

}  // namespace

TEST_CASE("given values as builders write them, then number, unit and tolerance are read") {
  check_ends<Volt>("24.1 V", 24.1, 24.1, 24.1);
  check_ends<Volt>("24.1 V +/- 1 %", 24.1 * 0.99, 24.1, 24.1 * 1.01);
  check_ends<Volt>("24.1 V ± 0.1 V", 24.0, 24.1, 24.2);
  check_ends<Volt>("24V±100mV", 23.9, 24.0, 24.1);
  check_ends<Volt>("20 V to 28 V", 20.0, 24.0, 28.0);
  check_ends<Ampere>("650 mA", 0.65, 0.65, 0.65);
  check_ends<Coulomb>("2.9 Ah", 10440.0, 10440.0, 10440.0);
  check_ends<Watt>("3 W", 3.0, 3.0, 3.0);
  check_ends<SquareMetre>("0.75 mm2", 0.75e-6, 0.75e-6, 0.75e-6);
  check_ends<SquareMetre>("0.75 mm²", 0.75e-6, 0.75e-6, 0.75e-6);
  check_ends<Metre>("180 mm", 0.18, 0.18, 0.18);
  check_ends<Second>("10 ms", 0.01, 0.01, 0.01);
  check_ends<Second>("4 h", 14400.0, 14400.0, 14400.0);
  check_ends<Second>("1 h 30 min", 5400.0, 5400.0, 5400.0);
  check_ends<Second>("1 d 2 h 3 min 4 s", 93784.0, 93784.0, 93784.0);
  check_ends<Second>("5 yr", 157788000.0, 157788000.0, 157788000.0);
  check_ends<KelvinPerWatt>("2 K/W", 2.0, 2.0, 2.0);
  check_ends<JoulePerKelvin>("45 J/K", 45.0, 45.0, 45.0);
  check_ends<Ohm>("4.7 kOhm", 4700.0, 4700.0, 4700.0);
  check_ends<Ohm>("4.7 kΩ", 4700.0, 4700.0, 4700.0);
  check_ends<Ohm>("4.7 k\u2126", 4700.0, 4700.0, 4700.0);
  check_ends<Farad>("1000 uF -20 %/+20 %", 0.0008, 0.001, 0.0012);
  check_ends<Farad>("1000 µF +5 % -10 %", 0.0009, 0.001, 0.00105);
  check_ends<Farad>("1000 \u03BCF", 0.001, 0.001, 0.001);
  check_ends<Ratio>("80 %", 0.8, 0.8, 0.8);
  check_ends<Ratio>("80 % +/- 5 %", 0.75, 0.8, 0.85);  // percentage points
  check_ends<VoltPerKelvin>("3 mV/K", 0.003, 0.003, 0.003);
  check_ends<AmpereSquaredSecond>("2 A²s", 2.0, 2.0, 2.0);
  check_ends<CubicMetrePerSecond>("20 l/s", 0.02, 0.02, 0.02);
  check_ends<CubicMetrePerSecond>("36 m3/h", 0.01, 0.01, 0.01);
  check_ends<PerKelvin>("0.00393 1/K", 0.00393, 0.00393, 0.00393);
  check_ends<PerKelvin>("0.393 %/K +/- 1 %", 0.0038907, 0.00393, 0.0039693);
  check_ends<Hertz>("12 %/yr", 0.12 / 31557600.0, 0.12 / 31557600.0, 0.12 / 31557600.0);
  check_ends<Volt>("  -1.5e1 V ", -15.0, -15.0, -15.0);
  check_ends<Volt>("\u22121.5 V", -1.5, -1.5, -1.5);
  check_ends<Volt>("24.1\u202FV", 24.1, 24.1, 24.1);
}

TEST_CASE("given temperatures, then points and differences are kept apart") {
  check_ends<Temperature>("2 degC", 275.15, 275.15, 275.15);
  check_ends<Temperature>("-10 °C to 40 °C", 263.15, 288.15, 313.15);
  check_ends<Temperature>("25 degC +/- 2 K", 296.15, 298.15, 300.15);
  check_ends<Temperature>("25 degC +/- 2 degC", 296.15, 298.15, 300.15);
  check_ends<Temperature>("212 degF", 373.15, 373.15, 373.15);  // water boils, NIST SP 811 B.8
  check_ends<Kelvin>("5 K", 5.0, 5.0, 5.0);
  CHECK(refusal<Kelvin>("5 degC") ==
        "1+6: expected a temperature difference such as `5 K`, found 5 degC: a temperature | "
        "Write a difference in K: `5 K`.");
  CHECK(refusal<Temperature>("298 K") ==
        "1+5: expected a temperature such as `25 degC`, found 298 K: a temperature difference | "
        "Write a temperature in degC.");
  CHECK(refusal<Temperature>("25 degC +/- 5 %") ==
        "13+3: expected a tolerance, found 5 %: a ratio | "
        "Write a tolerance of a temperature in K: `+/- 2 K`.");
}

TEST_CASE("given a wire gauge, then the cross-section is that of ASTM B258") {
  // ASTM B258, nominal areas as reprinted in wire tables, four digits, from memory.
  CHECK(value<SquareMetre>("20 AWG").nominal_si == doctest::Approx(0.5176e-6).epsilon(3e-4));
  CHECK(value<SquareMetre>("10 AWG").nominal_si == doctest::Approx(5.261e-6).epsilon(3e-4));
  CHECK(value<SquareMetre>("36 AWG").nominal_si == doctest::Approx(0.01267e-6).epsilon(4e-4));
  CHECK(refusal<SquareMetre>("20.5 AWG") == "1+4: a wire gauge is a whole number from 0 to 40 | ");
  CHECK(refusal<Metre>("20 AWG") ==
        "1+6: expected a length such as `180 mm`, found 20 AWG: a wire size | ");
}

TEST_CASE(
    "given a bare number, every unit it may be meant in is offered, not a thousandfold error") {
  CHECK(refusal<Ampere>("0.5") ==
        "1+3: 0.5 has no unit; expected a current such as `650 mA` | Did you mean `0.5 A` or "
        "`0.5 mA`?");
  CHECK(refusal<Metre>("180") ==
        "1+3: 180 has no unit; expected a length such as `180 mm` | Did you mean `180 mm` or "
        "`180 m`?");
}

TEST_CASE("given what is not a value of the kind, then the message says what was expected") {
  CHECK(refusal<Volt>("5 A") == "1+3: expected a voltage such as `12 V`, found 5 A: a current | ");
  CHECK(refusal<Volt>("12") ==
        "1+2: 12 has no unit; expected a voltage such as `12 V` | Did you mean `12 V`?");
  CHECK(refusal<Ampere>("650 ma") ==
        "5+2: there is no unit `ma`; expected a current such as `650 mA` | Did you mean `mA`?");
  CHECK(refusal<Ohm>("4.7k") ==
        "4+1: there is no unit `k`; expected a resistance such as `4.7 kOhm` | Write kOhm.");
  CHECK(refusal<Volt>("24,1 V") ==
        "3+1: a comma stands in the number | "
        "Write a decimal point and no thousands separator: `24.1`, `1000`.");
  CHECK(refusal<Volt>("nan V") ==
        "1+5: expected a voltage such as `12 V`, found `nan V` | Write a finite number.");
  CHECK(refusal<Volt>("1e999 V") == "1+5: the number is too large or too small to reckon with | ");
  CHECK(refusal<Ohm>("1e307 MOhm") == "1+5: the number is too large | ");
  CHECK(refusal<Volt>("") == "1+1: expected a voltage such as `12 V`, found nothing | ");
  CHECK(refusal<Volt>("28 V to 20 V") ==
        "9+4: the range runs downwards | Write the lower end first.");
  CHECK(refusal<Volt>("20 V - 28 V") ==
        "6+6: a tolerance with one sign needs the other side too | Write `+/- 5 %` or "
        "`+5 % -10 %`; a range is written `20 V to 28 V`.");
  CHECK(refusal<Volt>("20 to 28 V") ==
        "1+2: 20 has no unit; expected a voltage such as `12 V` | Did you mean `20 V`?");
  CHECK(refusal<Volt>("20 V +/- 5") ==
        "10+1: the tolerance 5 has no unit | "
        "Write `+/- 5 %`, or a tolerance in the value's own unit.");
  CHECK(refusal<Volt>("20 V +/- -5 %") ==
        "10+4: a sign stands where the size of the tolerance was expected | ");
  CHECK(refusal<Volt>("20 V roughly") ==
        "6+7: cannot make sense of `roughly` | A tolerance is written `+/- 5 %`, a range "
        "`20 V to 28 V`.");
  CHECK(refusal<Second>("30 min 1 h") ==
        "8+3: the units of a time must fall: hours, then minutes, then seconds | "
        "Write it as `1 h 30 min`.");
}

TEST_CASE("given an argument without tolerance, then a tolerance is refused") {
  CHECK(read_exact<Volt>("12 V").value() == Volt::of_si(12.0));
  CHECK_FALSE(read_exact<Volt>("12 V +/- 1 %"));
  CHECK_FALSE(read_exact<Volt>("12 V to 13 V"));
}

TEST_CASE("given a range, then one value is a range of equal ends") {
  CHECK(read_span<Temperature>("20 degC").value().low() == Temperature::of_celsius(20.0));
  CHECK(read_span<Volt>("20 V to 28 V").value().high() == Volt::of_si(28.0));
}

TEST_CASE("given a factor, then no unit is needed and a tolerance in % is a share of it") {
  const Measure factor{Dimension{}, false, true};
  const auto read = [&](std::string_view text) {
    const auto amount = read_amount(text, factor, Form::Value);
    if (!amount) FAIL(show(amount.problems()));
    return amount.value();
  };
  CHECK(read("1.5").nominal_si == 1.5);
  CHECK(read("150 %").nominal_si == 1.5);
  CHECK(read("2 +/- 10 %").high_si == doctest::Approx(2.2));
  CHECK(read("2 +/- 0.5").low_si == 1.5);
  CHECK(read("1 to 1.5").nominal_si == 1.25);
  CHECK_FALSE(read_amount("1.5 V", factor, Form::Value));
  CHECK_FALSE(read_amount("1.5 x", factor, Form::Value));
}

TEST_CASE("given arbitrary bytes, then reading ends with a value or a problem inside the text") {
  CHECK(rc::check("any text", [](const std::string& text) {
    for (const Unit& unit : unit_table()) {
      const auto read = read_amount(text, unit.measure, Form::Value);
      if (!read) RC_ASSERT(read.problems().at(0).place.column >= 1);
    }
  }));
}

TEST_CASE("given texts near the grammar, then the pattern fits those that are read") {
  const std::vector<std::string> pieces{
      "24",   ".5", "1e3", " ", "V",   "mV",   "+/-", "±",      "%",      "+",  "-",   "/",   "to",
      " to ", "A",  "1",   "h", "min", "degC", "K",   "\u2212", "\u00A0", "5.", "AWG", "mm2", "/K"};
  struct Reading {
    Measure measure;
    Form form;
    std::regex pattern;
  };
  std::vector<Reading> readings;
  for (const Measure& measure :
       {measure_of<Volt>(), measure_of<Temperature>(), measure_of<Second>(),
        measure_of<SquareMetre>(), measure_of<Ratio>(), Measure{Dimension{}, false, true}}) {
    for (const Form form : {Form::Value, Form::Exact}) {
      readings.push_back({measure, form, std::regex(text_pattern(measure, form))});
    }
  }
  CHECK(rc::check("pattern and reader agree", [&] {
    const auto chosen = *rc::gen::container<std::vector<std::string>>(rc::gen::elementOf(pieces));
    std::string text;
    for (const std::string& piece : chosen) text += piece;
    for (const Reading& reading : readings) {
      const bool fits = std::regex_search(text, reading.pattern);
      const auto read = read_amount(text, reading.measure, reading.form);
      if (read) RC_ASSERT(fits);
      if (fits && !read) {
        // What the header says a pattern cannot tell.
        const std::string& why = read.problems().at(0).text;
        RC_ASSERT(why.find("downwards") != std::string::npos ||
                  why.find("must fall") != std::string::npos ||
                  why.find("gauge is a whole") != std::string::npos);
      }
    }
  }));
}

// Round values around one of a sheet.
#include "quantity/choices.hpp"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "quantity/text.hpp"

using namespace tideover;
using quantity::Choices;
using quantity::choices_around;
using quantity::measure_of;

namespace {

bool offers(const Choices& choices, const std::string& text) {
  return std::ranges::find(choices.texts, text) != choices.texts.end();
}

double si_of(const std::string& text, const quantity::Measure& measure) {
  const auto amount = quantity::read_amount(text, measure, quantity::Form::Value);
  REQUIRE(amount);
  return amount.value().nominal_si;
}

}  // namespace

TEST_CASE("around 3.92 Ah stand round capacities from half to twice of it, and it itself") {
  const Choices choices =
      choices_around("3.92 Ah +/- 1.5 %", measure_of<quantity::Coulomb>(), 0.0, 1e7);
  CHECK(choices.texts.size() > 28);
  CHECK(choices.texts.size() < 62);
  CHECK(choices.texts[choices.at] == "3.92 Ah +/- 1.5 %");
  CHECK(offers(choices, "2 Ah +/- 1.5 %"));
  CHECK(offers(choices, "5 Ah +/- 1.5 %"));
  CHECK(choices.texts.back() == "7.8 Ah +/- 1.5 %");
}

TEST_CASE("times go in minutes and hours") {
  const auto time = measure_of<quantity::Second>();
  const Choices hours = choices_around("4 h", time, 0.0, 1e9);
  CHECK(hours.texts.front() == "2 h");
  CHECK(offers(hours, "2 h 10 min"));
  CHECK(offers(hours, "8 h"));
  const Choices mixed = choices_around("1 h 30 min", time, 0.0, 1e9);
  CHECK(mixed.texts[mixed.at] == "1 h 30 min");
  CHECK(offers(mixed, "2 h"));
  CHECK(offers(choices_around("25 ms", time, 0.0, 1e9), "30 ms"));
}

TEST_CASE("temperatures go 20 K to either side, gauges by their numbers") {
  const Choices warmth =
      choices_around("70 degC", measure_of<quantity::Temperature>(), 323.15, 533);
  CHECK(warmth.texts.front() == "50 degC");
  CHECK(warmth.texts.back() == "90 degC");
  const Choices gauges =
      choices_around("24 AWG", measure_of<quantity::SquareMetre>(), 1e-8, 1.2e-4);
  CHECK(gauges.texts[gauges.at] == "24 AWG");
  CHECK(gauges.texts[gauges.at + 1] == "23 AWG");
}

TEST_CASE("nothing is offered around a range or around zero") {
  const auto volt = measure_of<quantity::Volt>();
  CHECK(choices_around("20 V to 28 V", volt, 0.0, 60.0).texts.empty());
  CHECK(choices_around("0 V", volt, 0.0, 60.0).texts.empty());
  CHECK(choices_around("12 A", volt, 0.0, 60.0).texts.empty());
}

TEST_CASE("of what is made, the sizes within five times are offered") {
  const Choices sizes =
      quantity::choices_among("0.75 mm2", {"0.1 mm2", "0.25 mm2", "0.75 mm2", "2.5 mm2", "6 mm2"},
                              measure_of<quantity::SquareMetre>());
  CHECK(sizes.texts == std::vector<std::string>{"0.25 mm2", "0.75 mm2", "2.5 mm2"});
  CHECK(sizes.at == 1);
}

TEST_CASE("whatever the value, choices rise, lie in range and can be read") {
  const bool holds = rc::check([] {
    const auto measure = measure_of<quantity::Volt>();
    const double lowest = 0.001;
    const double highest = 60.0;
    const double number = std::pow(10.0, *rc::gen::inRange(-30, 17) / 10.0);
    const std::string tolerance = *rc::gen::element<std::string>("", " +/- 2 %", " +5 % -1 %");
    const std::string text = quantity::exact_text(number, measure) + tolerance;
    const Choices choices = choices_around(text, measure, lowest, highest);
    RC_ASSERT(!choices.texts.empty());
    RC_ASSERT(choices.texts[choices.at] == text);
    RC_ASSERT(choices.texts.size() < 90U);
    double before = 0.0;
    for (const std::string& one : choices.texts) {
      RC_ASSERT(si_of(one, measure) > before);
      before = si_of(one, measure);
      RC_ASSERT(one == text || before <= highest);
    }
  });
  CHECK(holds);
}

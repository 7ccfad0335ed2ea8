// What converters give and take at the most.
#include <algorithm>

#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover::finding;
using tideover::test::ask;
using tideover::test::beacon;
using tideover::test::BeaconRun;

namespace {

std::vector<Finding> of_up24(const std::string& key, const std::string& value) {
  auto found = ask(converter_power(), {{"up24." + key, value}});
  std::erase_if(found, [](const Finding& one) { return one.part != "up24"; });
  REQUIRE(found.size() == 2);
  return found;
}

}  // namespace

TEST_CASE("8.4 W at 23 V are 365 mA: a rating of 410 mA holds, 380 mA are near, 360 mA fail") {
  CHECK(of_up24("rated", "'410 mA'")[0].answer == Answer::Holds);
  CHECK(of_up24("rated", "'380 mA'")[0].answer == Answer::Tight);
  const Finding fails = of_up24("rated", "'360 mA'")[0];
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.measured->value_si == doctest::Approx(8.4 / 23.0));
  CHECK(fails.advice == "up24: rated = 500 mA or more, or less behind it.");
  CHECK(of_up24("rated", "'500 mA'")[0].answer == Answer::Holds);
}

TEST_CASE("at 8.25 V the same power takes 1.04 A: the input must let it in") {
  CHECK(of_up24("input_limit", "'1.2 A'")[1].answer == Answer::Holds);
  CHECK(of_up24("input_limit", "'1.05 A'")[1].answer == Answer::Tight);
  const Finding fails = of_up24("input_limit", "'1.02 A'")[1];
  CHECK(fails.answer == Answer::Fails);
  // Idle draw, 0.3 V and 80 mOhm of loss by default.
  const double i = 8.4 / 23.0;
  CHECK(fails.measured->value_si == doctest::Approx(5e-3 + (23.0 + 0.3 + 0.08 * i) * i / 8.25));
}

TEST_CASE("a run that asks for more than the sheet counts") {
  BeaconRun run;
  run.channel("up24", "share of rating", tideover::quantity::Ratio::dimension, 0.0, 1.1);
  run.overload("up24", "rated current", "share of rating", 1.0, 1.1);
  const auto found = ask(converter_power(), beacon(), {run.record()});
  CHECK(std::ranges::any_of(found, [](const Finding& one) {
    return one.part == "up24" && one.answer == Answer::Fails &&
           one.measured->value_si == doctest::Approx(1.65);
  }));
}

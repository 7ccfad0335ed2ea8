// Converters at the lowest voltage that feeds them.
#include <algorithm>

#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover::finding;
using tideover::test::ask;
using tideover::test::Changes;

namespace {

Finding of(const std::string& part, const Changes& changes) {
  const auto found = ask(converter_drop_out(), changes);
  const auto at = std::ranges::find(found, part, &Finding::part);
  REQUIRE(at != found.end());
  return *at;
}

// down5 set to that voltage, for a clock that takes 7 V to 9 V.
Finding down_at(const std::string& output) {
  return of("down5", {{"down5.output", output}, {"clock.accepts", "'7 V to 9 V'"}});
}

}  // namespace

TEST_CASE("a step-down of 95 % duty holds 7.7 V on a pack cut off at 8.25 V") {
  CHECK(down_at("'7.7 V'").answer == Answer::Holds);
}

TEST_CASE("set to 8 V it drops out before the cut-off, which the clock still accepts.") {
  const Finding tight = down_at("'8 V'");
  CHECK(tight.answer == Answer::Tight);
  CHECK(tight.measured->value_si == doctest::Approx(8.25));
  CHECK(tight.sentence.ends_with("which what it feeds still accepts."));
  CHECK(tight.advice == "down5: output = 7.82 V or less, or a board that steps up and down.");
  CHECK(down_at("'7.82 V'").answer == Answer::Holds);
}

TEST_CASE("for a clock from 7.9 V on it fails") {
  CHECK(of("down5", {{"down5.output", "'8 V'"}, {"clock.accepts", "'7.9 V to 9 V'"}}).answer ==
        Answer::Fails);
}

TEST_CASE("a step-down charger on an adapter of too few volts never fills the pack") {
  const auto at = [](const char* output) { return of("charger", {{"mains24.output", output}}); };
  // (12.3615 V + 50 mA * 0.1 Ohm) / 0.95 = 13.02 V.
  CHECK(at("'13.3 V +/- 2 %'").answer == Answer::Holds);
  const Finding fails = at("'13.1 V +/- 2 %'");
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.limit->value_si == doctest::Approx(12.3665 / 0.95).epsilon(1e-3));
}

// What a converter's input gets at the most.
#include <algorithm>

#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover::finding;
using tideover::test::ask;
using tideover::test::Changes;

namespace {

Finding of(const std::string& part, const Changes& changes) {
  const auto found = ask(converter_input(), changes);
  const auto at = std::ranges::find(found, part, &Finding::part);
  REQUIRE(at != found.end());
  return *at;
}

}  // namespace

TEST_CASE(
    "given 24.48 V at no load, an input of 28 V holds, one of 25 V is near, one of 24 V fails") {
  CHECK(of("charger", {{"charger.accepts", "'6 V to 28 V'"}}).answer == Answer::Holds);
  CHECK(of("charger", {{"charger.accepts", "'6 V to 25 V'"}}).answer == Answer::Tight);
  const Finding fails = of("charger", {{"charger.accepts", "'6 V to 24 V'"}});
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.measured->value_si == doctest::Approx(24.48));
  CHECK(fails.limit->value_si == doctest::Approx(24.0));
  CHECK(fails.advice == "charger: one that stands 28 V or more at its input.");
}

TEST_CASE("given a converter on the pack, the full pack counts") {
  const Finding found = of("up24", {});
  CHECK(found.measured->value_si == doctest::Approx(12.3 * 1.005));
  CHECK(found.sentence ==
        "up24 stands 20 V at its input and may get 12.36 V: pack when charger has filled it.");
}

TEST_CASE("what a run shows counts where it is more than any source brings") {
  tideover::test::BeaconRun run;
  run.channel("charger", "input voltage", tideover::quantity::Volt::dimension, 31.0, 0.0);
  run.overload("charger", "highest input voltage", "input voltage", 30.0, 31.0);
  const auto found = ask(converter_input(), tideover::test::beacon(), {run.record()});
  const auto charger = std::ranges::find(found, "charger", &Finding::part);
  REQUIRE(charger != found.end());
  CHECK(charger->answer == Answer::Fails);
  CHECK(charger->measured->value_si == doctest::Approx(31.0));
}

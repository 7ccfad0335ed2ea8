// The charger against what its adapter can spare.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover::finding;
using tideover::test::ask;
using tideover::test::Changes;

namespace {

// The lamp takes 8.4 W at 23.28 V, 361 mA: of 2 A some 1.64 A are spare.
Finding at(const std::string& current, const std::string& rated = "'2 A'") {
  return ask(charger_spare(), {{"charger.current", current}, {"mains24.rated", rated}}).front();
}

}  // namespace

TEST_CASE("one ampere into the pack leaves most of the spare current") {
  const Finding found = at("'1 A +/- 5 %'");
  CHECK(found.answer == Answer::Holds);
  CHECK(found.limit->value_si == doctest::Approx(2.0 - 8.4 / 23.28).epsilon(1e-6));
}

TEST_CASE("three amperes are too much, and the limit that is advised holds") {
  const Finding fails = at("'3 A +/- 5 %'");
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.advice == "charger: current = 2.54 A or less.");
  CHECK(at("'2.54 A +/- 5 %'").answer == Answer::Holds);
  CHECK(at("'2.57 A +/- 5 %'").answer == Answer::Tight);
}

TEST_CASE("the charger's tolerance counts") {
  CHECK(at("'2.7 A'").answer == Answer::Tight);
  CHECK(at("'2.7 A +/- 10 %'").answer == Answer::Fails);
}

TEST_CASE("an adapter that the lamp alone fills has nothing to spare") {
  const Finding found = at("'1 A'", "'0.35 A'");
  CHECK(found.answer == Answer::Fails);
  CHECK(found.advice == "charger: another adapter, for it alone.");
}

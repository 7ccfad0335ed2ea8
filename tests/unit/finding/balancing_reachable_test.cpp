// Whether a board ever balances.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover::finding;
using tideover::test::ask;

namespace {

Finding at(const std::string& voltage) {
  return ask(balancing_reachable(), {{"board.balances", "'while-charging'"},
                                     {"board.balance_start", "'4.15 V'"},
                                     {"charger.voltage", voltage}})
      .front();
}

}  // namespace

TEST_CASE("a board that bleeds from 4.15 V on balances at 4.18 V a group and not at 4.10 V") {
  CHECK(at("'12.54 V +/- 0.5 %'").answer == Answer::Holds);
  CHECK(at("'12.45 V +/- 0.5 %'").answer == Answer::Tight);
  const Finding fails = at("'12.3 V +/- 0.5 %'");
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.limit->value_si == doctest::Approx(4.15));
  CHECK(fails.advice.starts_with("charger: voltage = 12.52 V or more"));
  CHECK(at("'12.52 V +/- 0.5 %'").answer == Answer::Holds);
}

TEST_CASE("a board without balancing is a class of its own") {
  const Finding found = ask(balancing_reachable()).front();
  CHECK(found.answer == Answer::Classed);
  CHECK(found.sentence.starts_with("board does not balance: the 3 groups of pack"));
}

TEST_CASE("a balancing board whose threshold is not stated is unknown") {
  const Finding found = ask(balancing_reachable(), {{"board.balances", "'always'"}}).front();
  CHECK(found.answer == Answer::Unknown);
  CHECK(found.unknown.front() == "board.balance_start");
}

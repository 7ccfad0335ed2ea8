// Which acts first at the end of the pack.
#include <algorithm>

#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover::finding;
using tideover::test::ask;

namespace {

// The board cuts three groups off between 8.25 V and 8.55 V.
Finding up24_with(const std::string& lockout, const std::string& release) {
  const auto found =
      ask(cut_off_order(), {{"up24.lockout", lockout}, {"up24.lockout_release", release}});
  const auto at = std::ranges::find(found, "up24", &Finding::part);
  REQUIRE(at != found.end());
  return *at;
}

}  // namespace

TEST_CASE("given a lockout below the board's cut-off, the board acts first") {
  const Finding found = up24_with("'8.2 V'", "'9 V'");
  CHECK(found.answer == Answer::Holds);
  CHECK(found.sentence.ends_with("the cut-off acts first, once, and all of the charge is used."));
}

TEST_CASE("given a lockout within the board's tolerance, which acts first is left to chance") {
  CHECK(up24_with("'8.4 V'", "'9 V'").answer == Answer::Tight);
}

TEST_CASE("given a lockout above it, 0.45 V of hysteresis decide whether it comes and goes") {
  CHECK(up24_with("'9.3 V'", "'9.8 V'").answer == Answer::Tight);
  const Finding fails = up24_with("'9.3 V'", "'9.7 V'");
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.sentence.find("it stops first, with some") != std::string::npos);
  CHECK(fails.advice == "up24: lockout = 8.2 V or less; or lockout_release = 9.8 V or more.");
}

TEST_CASE("given a board whose cut-off is not stated, the order is unknown") {
  const Finding found = ask(cut_off_order(), {{"board.under_voltage", ""}}).front();
  CHECK(found.answer == Answer::Unknown);
  CHECK(found.unknown.front() == "board.under_voltage");
}

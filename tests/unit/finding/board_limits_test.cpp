// A protection board made for its cells.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover::finding;
using tideover::test::ask;

namespace {

// Cells of the beacon are charged to 4.2 V and may be emptied to 2.5 V.
Finding full_with(const char* over_voltage) {
  return ask(board_limits(), {{"board.over_voltage", over_voltage}}).front();
}
Finding empty_with(const char* under_voltage) {
  return ask(board_limits(), {{"board.under_voltage", under_voltage}}).back();
}

}  // namespace

TEST_CASE("given a board for 4.2 V cells, over-charge is stopped in time") {
  CHECK(full_with("'4.275 V +/- 25 mV'").answer == Answer::Holds);
  CHECK(full_with("'4.35 V +/- 25 mV'").answer == Answer::Tight);
  const Finding late = full_with("'4.45 V'");
  CHECK(late.answer == Answer::Fails);
  CHECK(late.advice == "board: one made for these cells, over_voltage = 4.3 V or less.");
}

TEST_CASE("given a board that cuts off below what a cell may be emptied to, it fails") {
  CHECK(empty_with("'2.6 V +/- 50 mV'").answer == Answer::Holds);
  CHECK(empty_with("'2.52 V +/- 50 mV'").answer == Answer::Tight);
  const Finding late = empty_with("'2.2 V +/- 50 mV'");
  CHECK(late.answer == Answer::Fails);
  CHECK(late.measured->value_si == doctest::Approx(2.15));
  CHECK(late.advice == "board: one made for these cells, under_voltage = 2.55 V or more.");
}

TEST_CASE("given a board whose limits are not stated, other rules ask for them") {
  CHECK(ask(board_limits(), {{"board.over_voltage", ""}, {"board.under_voltage", ""}}).empty());
}

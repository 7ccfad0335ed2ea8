// Currents of cells and of the board.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "part/pack/pack.hpp"
#include "support/beacon.hpp"

using namespace tideover::finding;
using tideover::quantity::Ampere;
using tideover::test::ask;
using tideover::test::beacon;
using tideover::test::BeaconRun;

TEST_CASE("two cells of 1.4 A side by side take 2.4 A with 5 % to spare, not 2.7 A") {
  const auto at = [](const char* current) {
    return ask(cell_charge_current(), {{"charger.current", current}}).front();
  };
  CHECK(at("'2.39 A +/- 5 %'").answer == Answer::Holds);
  CHECK(at("'2.5 A +/- 5 %'").answer == Answer::Tight);
  const Finding fails = at("'2.7 A +/- 5 %'");
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.measured->value_si == doctest::Approx(0.5 * 2.7 * 1.05));
  CHECK(fails.limit->value_si == doctest::Approx(1.4));
  CHECK(fails.advice == "charger: current = 2.39 A or less; or more cells side by side.");
}

TEST_CASE("a charge current seen in a run counts where it is more than the setting") {
  BeaconRun run;
  run.channel("pack", "discharge current", Ampere::dimension, -3.0, 1.0);
  run.overload("pack", "charge current", "discharge current", -2.8, -3.0);
  const Finding fails = ask(cell_charge_current(), beacon(), {run.record()}).front();
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.measured->value_si == doctest::Approx(1.5));
}

TEST_CASE("the cells give 1.17 A at the cut-off: two of 660 mA hold, two of 580 mA do not") {
  // The lamp through up24 and the clock through down5 at 8.25 V.
  auto build = beacon();
  const auto at = [&](double stands_a) {
    for (const auto& part : build.parts) {
      if (auto* const pack = dynamic_cast<tideover::part::Pack*>(part.get())) {
        pack->cell.discharge_current = tideover::quantity::Value<Ampere>(Ampere::of_si(stands_a));
      }
    }
    return ask(cell_discharge_current(), build, {}).front();
  };
  CHECK(at(0.66).answer == Answer::Holds);
  CHECK(at(0.60).answer == Answer::Tight);
  const Finding fails = at(0.58);
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.measured->value_si == doctest::Approx(0.586).epsilon(0.01));
  CHECK(fails.advice == "pack: parallel = 3 or more, or cells that stand more.");
}

TEST_CASE("what a run draws from the pack counts for cells and board where it is more") {
  BeaconRun run;
  run.channel("pack", "discharge current", Ampere::dimension, 0.0, 9.0);
  run.channel("board", "current", Ampere::dimension, 0.0, 9.0);
  run.overload("pack", "discharge current", "discharge current", 5.0, 9.0);
  run.overload("board", "continuous discharge current", "current", 8.0, 9.0);
  const Finding cells = ask(cell_discharge_current(), beacon(), {run.record()}).front();
  CHECK(cells.measured->value_si == doctest::Approx(4.5));
  const auto board = ask(board_current(), beacon(), {run.record()});
  REQUIRE(board.size() == 2);
  for (const Finding& one : board) CHECK(one.measured->value_si == doctest::Approx(9.0));
  CHECK(board.back().answer == Answer::Fails);
}

TEST_CASE("the board's limit less its tolerance must carry what the cut-off voltage takes") {
  const auto at = [](const char* limit) {
    return ask(board_current(), {{"board.discharge_over_current", limit}})[0];
  };
  CHECK(at("'1.7 A +/- 20 %'").answer == Answer::Holds);
  CHECK(at("'1.5 A +/- 20 %'").answer == Answer::Tight);
  const Finding fails = at("'1.4 A +/- 20 %'");
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.limit->value_si == doctest::Approx(1.12));
  CHECK(fails.advice == "board: discharge_over_current = 1.7 A or more, or less behind it.");
}

TEST_CASE("and so must its rating") {
  const auto at = [](const char* rated) {
    return ask(board_current(), {{"board.rated", rated}})[1];
  };
  CHECK(at("'1.31 A'").answer == Answer::Holds);
  CHECK(at("'1.2 A'").answer == Answer::Tight);
  CHECK(at("'1.16 A'").answer == Answer::Fails);
}

TEST_CASE("the lower the cut-off, the more the board carries") {
  const auto at = [](const char* under) {
    return ask(board_current(), {{"board.under_voltage", under}})[0].measured->value_si;
  };
  CHECK(at("'2.6 V'") / at("'2.9 V'") == doctest::Approx(2.9 / 2.6).epsilon(0.01));
}

TEST_CASE("a board whose limits are not stated is unknown") {
  const auto found =
      ask(board_current(), {{"board.discharge_over_current", ""}, {"board.rated", ""}});
  REQUIRE(found.size() == 2);
  CHECK(found[0].unknown.front() == "board.discharge_over_current");
  CHECK(found[1].unknown.front() == "board.rated");
  CHECK(found[1].answer == Answer::Unknown);
}

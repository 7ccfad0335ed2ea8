// The charger against the cells and against the board.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover::finding;
using tideover::test::ask;
using tideover::test::beacon;

TEST_CASE("given a charger on 4.10 V a cell, cells and board are content") {
  const auto found = ask(charge_voltage());
  REQUIRE(found.size() == 2);
  for (const Finding& finding : found) {
    CHECK(finding.answer == Answer::Holds);
    CHECK(finding.part == "charger");
    CHECK(finding.advice.empty());
  }
}

TEST_CASE("given a charger on 4.225 V a cell, it is set above what the cells are made for") {
  const auto found = ask(charge_voltage(), {{"charger.voltage", "'12.675 V'"}});
  CHECK(found[0].answer == Answer::Fails);
  CHECK(found[0].measured->value_si == doctest::Approx(4.225));
  CHECK(found[0].limit->value_si == doctest::Approx(4.2));
  CHECK(found[0].sentence ==
        "charger charges each cell of pack to 4.225 V, 4.225 V at the upper end of its tolerance; "
        "4.2 V is the most it is made for, and 4.25 V with the charger's spread.");
}

TEST_CASE("given 4.20 V a cell, a tolerance of 1 % is tight and one of 1.5 % too much") {
  CHECK(ask(charge_voltage(), {{"charger.voltage", "'12.6 V +/- 1 %'"}})[0].answer ==
        Answer::Tight);
  CHECK(ask(charge_voltage(), {{"charger.voltage", "'12.6 V +/- 1.5 %'"}})[0].answer ==
        Answer::Fails);
}

TEST_CASE("given a board that acts at 4.18 V less its tolerance, 4.16 V a cell are too much") {
  const tideover::test::Changes changes{{"charger.voltage", "'12.45 V +/- 0.5 %'"},
                                        {"board.over_voltage", "'4.18 V +/- 25 mV'"}};
  const auto found = ask(charge_voltage(), changes);
  CHECK(found[0].answer == Answer::Holds);
  CHECK(found[1].answer == Answer::Fails);
  CHECK(found[1].advice == "charger: voltage = 12.32 V or less.");
}

TEST_CASE("the setting that is advised holds, and 1 % more does not") {
  const auto at = [](const char* voltage) {
    return ask(charge_voltage(),
               {{"charger.voltage", voltage}, {"board.over_voltage", "'4.18 V +/- 25 mV'"}})[1]
        .answer;
  };
  CHECK(at("'12.32 V +/- 0.5 %'") == Answer::Holds);
  CHECK(at("'12.44 V +/- 0.5 %'") == Answer::Fails);
}

TEST_CASE("given no charger, there is nothing to say of charging") {
  auto build = beacon();
  std::erase_if(build.parts, [](const auto& part) { return part->name == "charger"; });
  CHECK(ask(charge_voltage(), build, {}).empty());
}

TEST_CASE("given a board whose over-voltage is not stated, it is unknown whether it acts first") {
  const auto found = ask(charge_voltage(), {{"board.over_voltage", ""}});
  CHECK(found[0].answer == Answer::Holds);
  CHECK(found[1].answer == Answer::Unknown);
  CHECK(found[1].unknown == std::vector<std::string>{"board.over_voltage"});
  CHECK(found[1].advice.starts_with("board.over_voltage: "));
  CHECK_FALSE(found[1].measured.has_value());
}

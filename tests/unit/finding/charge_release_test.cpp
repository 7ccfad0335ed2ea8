// Held full for years, and let charge again.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover::finding;
using tideover::test::ask;

namespace {

// A pack of six 2 V cells in one block, charged to that voltage.
Finding lead_at(const std::string& voltage) {
  return ask(charge_release(), {{"pack.cell", "'shelf:lead-acid-12v-7ah'"},
                                {"pack.series", "1"},
                                {"pack.parallel", "1"},
                                {"board.series", "1"},
                                {"board.over_voltage", "'15 V'"},
                                {"board.over_voltage_release", "'14.5 V'"},
                                {"board.under_voltage", "'10.5 V'"},
                                {"board.under_voltage_release", "'12 V'"},
                                {"leads.tap_1.between", ""},
                                {"leads.tap_1.size", ""},
                                {"leads.tap_1.length", ""},
                                {"leads.tap_2.between", ""},
                                {"leads.tap_2.size", ""},
                                {"leads.tap_2.length", ""},
                                {"charger.voltage", voltage}})
      .front();
}

}  // namespace

TEST_CASE("lithium cells held at 4.10 V for years hold, at 4.12 V they are tight") {
  CHECK(ask(charge_release(), {{"charger.voltage", "'12.3 V'"}})[0].answer == Answer::Holds);
  const Finding tight = ask(charge_release(), {{"charger.voltage", "'12.36 V'"}})[0];
  CHECK(tight.answer == Answer::Tight);
  CHECK(tight.limit->value_si == doctest::Approx(4.1));
  CHECK(tight.advice ==
        "charger: voltage = 12.3 V, or a charger that ends (ends_at); a tenth of the charge for "
        "years of life.");
}

TEST_CASE("a charger that ends does not hold") {
  // Then only the board's release is left to judge.
  CHECK(ask(charge_release(), {{"charger.ends_at", "'100 mA'"}}).size() == 1);
}

TEST_CASE("a lead-acid battery floats at 2.30 V a cell: 13.8 V hold, 14.0 V dry it out") {
  CHECK(lead_at("'13.8 V'").answer == Answer::Holds);
  const Finding fails = lead_at("'14 V'");
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.limit->value_si == doctest::Approx(13.8));
}

TEST_CASE("above the board's release voltage a pack that was stopped takes nothing") {
  const auto at = [](const char* voltage, const char* over) {
    return ask(charge_release(), {{"charger.voltage", voltage}, {"board.over_voltage", over}})[1];
  };
  // The release is 4.10 V by default.
  CHECK(at("'12.3 V'", "'4.25 V'").answer == Answer::Holds);
  CHECK(at("'12.42 V'", "'4.25 V'").answer == Answer::Tight);
  const Finding fails = at("'12.42 V'", "'4.15 V'");
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.sentence.ends_with("takes nothing until it has been drained somewhat."));
  CHECK(fails.advice ==
        "charger: voltage = 12.3 V or less; or a board whose over_voltage_release is 4.14 V or "
        "more.");
}

TEST_CASE("a release voltage that is not stated is unknown") {
  const Finding found = ask(charge_release(), {{"board.over_voltage_release", ""}})[1];
  CHECK(found.answer == Answer::Unknown);
  CHECK(found.unknown.front() == "board.over_voltage_release");
}

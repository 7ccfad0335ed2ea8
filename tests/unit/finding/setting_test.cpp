// How near an adjustment has to be set.
#include "finding/setting.hpp"

#include <doctest/doctest.h>

#include "support/beacon.hpp"

using namespace tideover::finding;
using tideover::test::beacon;

TEST_CASE("a charger has two adjustments, a converter one") {
  const auto settings = settings_of(beacon());
  REQUIRE(settings.size() == 4);
  CHECK(settings[0].part == "charger");
  CHECK(settings[0].key == "voltage");
  CHECK_FALSE(settings[0].is_current);
  CHECK(settings[1].key == "current");
  CHECK(settings[1].is_current);
}

TEST_CASE("a charger 1.2 % below what its cells take is set to half of that") {
  // 12.6 V is 4.20 V a cell; from 12.45 V on it is 1.205 % away.
  const auto build = beacon({{"charger.voltage", "'12.45 V'"},
                             {"board.over_voltage", "'4.35 V'"},
                             {"board.over_voltage_release", "'4.2 V'"}});
  CHECK(tolerance_share_of(build, settings_of(build)[0]).value() ==
        doctest::Approx(0.00602).epsilon(0.02));
}

TEST_CASE("what nothing depends on is set within what a meter and a screw can do") {
  const auto build = beacon();
  CHECK(tolerance_share_of(build, settings_of(build)[1]).value() ==
        doctest::Approx(widest_setting_share));
}

TEST_CASE("what leaves no room is set as near as can be") {
  const auto build = beacon({{"charger.voltage", "'12.6 V'"},
                             {"board.over_voltage", "'4.35 V'"},
                             {"board.over_voltage_release", "'4.3 V'"}});
  CHECK(tolerance_share_of(build, settings_of(build)[0]).value() ==
        doctest::Approx(nearest_setting_share));
}

TEST_CASE("no setting is left wider than the sheet counts on") {
  const auto build = beacon({{"charger.voltage", "'12.3 V +/- 0.5 %'"}});
  CHECK(tolerance_share_of(build, settings_of(build)[0]).value() == doctest::Approx(0.005));
}

TEST_CASE("a setting that a finding wants changed has no tolerance") {
  const auto build = beacon({{"charger.voltage", "'12.8 V'"}, {"charger.current", "'3 A'"}});
  CHECK_FALSE(tolerance_share_of(build, settings_of(build)[0]).has_value());
  CHECK_FALSE(tolerance_share_of(build, settings_of(build)[1]).has_value());
  CHECK(tolerance_share_of(build, settings_of(build)[3]).has_value());
}

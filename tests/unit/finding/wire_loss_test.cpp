// Volts lost in a device's own leads.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover;
using namespace tideover::finding;
using quantity::Ampere;
using quantity::Volt;
using test::ask;
using test::beacon;
using test::BeaconRun;

namespace {

// The clock takes 200 mA at 5 V through clock_plus and clock_return, of that length.
Finding with_leads_of(const std::string& length) {
  BeaconRun run;
  run.channel("clock", "current", Ampere::dimension, 0.2, 0.2);
  run.channel("clock", "input voltage", Volt::dimension, 5.0, 5.0);
  run.channel("leads.clock_plus", "current", Ampere::dimension, 0.2, 0.2);
  run.channel("leads.clock_return", "current", Ampere::dimension, -0.2, -0.2);
  const auto build =
      beacon({{"leads.clock_plus.length", length}, {"leads.clock_return.length", length}});
  const auto found = ask(wire_loss(), build, {run.record()});
  REQUIRE(found.size() == 1);
  return found.front();
}

}  // namespace

TEST_CASE(
    "23 m of 0.75 mm2 there and back lose less than a twentieth of 5 V at 200 mA, 25 m more") {
  // 26 mOhm a metre of flexible conductor at 20 degC, 26.5 at 25 degC, and 1 mOhm of joints each.
  const Finding holds = with_leads_of("'23.2 m'");
  CHECK(holds.answer == Answer::Holds);
  const Finding tight = with_leads_of("'24.6 m'");
  CHECK(tight.answer == Answer::Tight);
  CHECK(tight.limit->value_si == doctest::Approx(0.05));
  CHECK(tight.measured->value_si == doctest::Approx(2.0 * 24.6 * 0.0265 * 0.2 / 5.0).epsilon(0.02));
  CHECK(tight.advice ==
        "leads.clock_plus: size = 0.8 mm2 or more, and the lead that goes back with it; or "
        "shorter.");
}

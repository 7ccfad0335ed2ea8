// What a device gets while it is carried.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover::finding;
using tideover::quantity::Second;
using tideover::quantity::Volt;
using tideover::test::ask;
using tideover::test::beacon;
using tideover::test::BeaconRun;

namespace {

// The lamp (20 V to 28 V) gets that much in the dark.
Finding lamp_at(double volts) {
  BeaconRun run;
  run.channel("lamp", "input voltage", Volt::dimension, 24.0, volts);
  return ask(load_voltage(), beacon(), {run.record()}).front();
}

}  // namespace

TEST_CASE("given a lamp from 20 V on, 20.9 V hold, 20.3 V are tight and 19.8 V fail") {
  CHECK(lamp_at(20.9).answer == Answer::Holds);
  CHECK(lamp_at(20.3).answer == Answer::Tight);
  const Finding fails = lamp_at(19.8);
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.measured->value_si == doctest::Approx(19.8));
  CHECK(fails.limit->value_si == doctest::Approx(20.0));
  CHECK(
      fails.sentence ==
      "lamp works from 20 V to 28 V; while it is served it gets 19.8 V or more, as the mains goes "
      "(as is).");
  CHECK(
      fails.advice ==
      "what feeds lamp: 1.01 V more (converter output or adapter), or thicker leads on the way to "
      "it.");
}

TEST_CASE("the volts that are advised make it hold") {
  CHECK(lamp_at(19.8 + 1.01).answer == Answer::Holds);
}

TEST_CASE("what it gets when it is no longer carried is nobody's worry") {
  BeaconRun run;
  run.channel("lamp", "input voltage", Volt::dimension, 24.0, 0.0);
  const auto hours = [](double h) { return Second::of_si(3600.0 * h); };
  run.record().services.front().served = {{hours(0.0), hours(1.0)}, {hours(6.0), hours(16.0)}};
  CHECK(ask(load_voltage(), beacon(), {run.record()}).front().answer == Answer::Holds);
}

TEST_CASE("a lamp that never serves is told with the most it ever gets") {
  BeaconRun run;
  run.channel("lamp", "input voltage", Volt::dimension, 18.0, 12.0);
  run.record().services.front().served.clear();
  const Finding found = ask(load_voltage(), beacon(), {run.record()}).front();
  CHECK(found.answer == Answer::Fails);
  CHECK(found.sentence.starts_with(
      "lamp works from 20 V to 28 V and never serves: it gets up to 18 V"));
}

TEST_CASE("without a run nobody knows what a device gets, and nothing is said") {
  CHECK(ask(load_voltage()).empty());
}

// What adapters give in the runs.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover::finding;
using tideover::quantity::Ratio;
using tideover::test::ask;
using tideover::test::beacon;
using tideover::test::BeaconRun;

namespace {

Finding at(double share) {
  BeaconRun run;
  run.channel("mains24", "share of rating", Ratio::dimension, share, 0.0);
  if (share > 1.0) {
    run.overload("mains24", "rating left at its temperature", "share of rating", 1.0, share);
  }
  return ask(adapter_loading(), beacon(), {run.record()}).front();
}

}  // namespace

TEST_CASE("nine tenths of the rating hold, 95 % are tight, 102 % fail") {
  CHECK(at(0.89).answer == Answer::Holds);
  CHECK(at(0.95).answer == Answer::Tight);
  const Finding fails = at(1.02);
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.measured->value_si == doctest::Approx(1.02));
  CHECK(fails.sentence ==
        "mains24 gives 102 % of its rated 2 A, 1 min in all, first as the mains goes (as is).");
}

TEST_CASE("the charger's limit and the adapter's rating that are advised are numbers") {
  const Finding tight = at(0.95);
  CHECK(tight.advice == "charger: current = 1 A or less; or mains24: rated = 2.2 A or more.");
  // 0.95 of 2 A are 0.864 of 2.2 A.
  CHECK(at(0.95 * 2.0 / 2.2).answer == Answer::Holds);
}

TEST_CASE("a burst of seconds is not a lasting load") {
  BeaconRun run;
  run.channel("mains24", "share of rating", Ratio::dimension, 0.4, 0.0);
  run.record().highest.back().value_si = 3.0;
  CHECK(ask(adapter_loading(), beacon(), {run.record()}).front().answer == Answer::Holds);
}

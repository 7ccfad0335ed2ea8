#include "question/outage.hpp"

#include <doctest/doctest.h>

#include "question/phrases.hpp"
#include "support/hut.hpp"

using tideover::network::Effect;
using tideover::question::Interruption;
using tideover::question::Outage;
using tideover::question::outages_of;
using tideover::question::Serving;
using tideover::test::HutRun;

namespace {

constexpr double hour_s = 3600.0;

Outage only_outage(const HutRun& run) {
  const auto outages = outages_of(run.record());
  REQUIRE(outages.size() == 1);
  return outages.front();
}

const Serving& serving(const Outage& outage, const std::string& load) {
  for (const Serving& one : outage.servings) {
    if (one.load == load) return one;
  }
  FAIL("no such load");
  return outage.servings.front();
}

}  // namespace

TEST_CASE("given loads served throughout, an outage is carried whole") {
  const Outage outage = only_outage(HutRun(5.0 * hour_s));
  CHECK(outage.carried_whole);
  CHECK(outage.carried.si() == doctest::Approx(5.0 * hour_s));
  CHECK(outage.mains_returns);
  CHECK_FALSE(outage.first_lost);
  CHECK_FALSE(outage.cut_off);
  REQUIRE(outage.full_after);
  CHECK(outage.full_after->si() == doctest::Approx(9.0 * hour_s));
}

TEST_CASE("when one load goes before the other, run time ends with the first") {
  const Outage outage = only_outage(HutRun(8.0 * hour_s)
                                        .lost("sea", 5.0 * hour_s)
                                        .lost("radio", 6.0 * hour_s)
                                        .cut_off(6.0 * hour_s, "board", "cuts the discharge path"));
  CHECK(outage.carried.si() == doctest::Approx(5.0 * hour_s));
  CHECK_FALSE(outage.carried_whole);
  REQUIRE(outage.first_lost);
  REQUIRE(outage.last_lost);
  REQUIRE(outage.cut_off);
  CHECK(outage.first_lost->si() == doctest::Approx(5.0 * hour_s));
  CHECK(outage.last_lost->si() == doctest::Approx(6.0 * hour_s));
  CHECK(outage.cut_off->si() == doctest::Approx(6.0 * hour_s));
  // An hour later is no cause of it.
  CHECK(outage.ended_by.empty());
  CHECK(outage.cut_off_by == "board cuts the discharge path");
  REQUIRE(serving(outage, "sea").back_after);
  CHECK(serving(outage, "sea").back_after->si() == doctest::Approx(30.0));
}

TEST_CASE("when one load is lost and the other is not, there is no last load lost") {
  const Outage outage = only_outage(HutRun(8.0 * hour_s).lost("sea", 5.0 * hour_s));
  CHECK(outage.first_lost);
  CHECK_FALSE(outage.last_lost);
}

TEST_CASE("a restart at the loss of mains is an interruption, not the end") {
  const Outage outage = only_outage(
      HutRun(5.0 * hour_s).interrupted("radio", 0.030, 45.0).lost("radio", 4.5 * hour_s));
  const Serving& radio = serving(outage, "radio");
  REQUIRE(radio.interruptions.size() == 1);
  CHECK(radio.interruptions[0].when == Interruption::When::AtLoss);
  CHECK(radio.interruptions[0].length().si() == doctest::Approx(45.0));
  REQUIRE(radio.lost_after);
  CHECK(radio.lost_after->si() == doctest::Approx(4.5 * hour_s));
  // The need says "served through": the restart counts against it.
  CHECK(outage.carried.si() == doctest::Approx(0.030));
}

TEST_CASE("a restart as the mains comes back is told apart") {
  const Outage outage =
      only_outage(HutRun(2.0 * hour_s).interrupted("sea", 2.0 * hour_s + 0.6, 40.0));
  const Serving& sea = serving(outage, "sea");
  REQUIRE(sea.interruptions.size() == 1);
  CHECK(sea.interruptions[0].when == Interruption::When::AtReturn);
  CHECK(outage.carried_whole);
}

TEST_CASE("a dip in the middle is neither") {
  const Outage outage = only_outage(HutRun(5.0 * hour_s).interrupted("sea", 2.0 * hour_s, 40.0));
  REQUIRE(serving(outage, "sea").interruptions.size() == 1);
  CHECK(serving(outage, "sea").interruptions[0].when == Interruption::When::During);
  CHECK(outage.carried.si() == doctest::Approx(2.0 * hour_s));
}

TEST_CASE("a board that reconnects for a moment does not bring service back") {
  const Outage outage = only_outage(HutRun(8.0 * hour_s)
                                        .lost("sea", 5.0 * hour_s)
                                        .interrupted("radio", 5.0 * hour_s, 20.0)
                                        .cut_off(5.0 * hour_s, "board", "cuts the discharge path")
                                        .lost("radio", 5.0 * hour_s + 60.0));
  const Serving& radio = serving(outage, "radio");
  CHECK(radio.interruptions.empty());
  REQUIRE(radio.lost_after);
  CHECK(radio.lost_after->si() == doctest::Approx(5.0 * hour_s));
}

TEST_CASE("waiting for a full pack in vain is told") {
  const Outage outage = only_outage(HutRun().never_full());
  CHECK_FALSE(outage.full_after);
  CHECK(outage.waited_for_full);
}

TEST_CASE("a record without stretches has no outage") { CHECK(outages_of({}).empty()); }

TEST_CASE("of parts that stop one after another, the first one took the load") {
  HutRun run(8.0 * hour_s);
  const double at_s = run.loss_s() + 5.0 * hour_s;
  run.event(at_s - 60.0, "charger", "waits: too cold to charge");
  run.event(at_s, "board", "cuts the discharge path: group 3 is empty", Effect::Stops);
  run.event(at_s + 0.02, "up24", "turns off: too little input", Effect::Stops);
  run.lost("sea", 5.0 * hour_s + 0.05);
  CHECK(only_outage(run).ended_by == "board cuts the discharge path: group 3 is empty");
}

TEST_CASE("what has stopped and come back took nothing, nor what stops for want of mains") {
  HutRun run(8.0 * hour_s);
  const double at_s = run.loss_s() + 2.0;
  run.event(run.loss_s(), "mains24", "loses the mains", Effect::MainsGoes);
  run.event(at_s - 1.9, "mains24", "has used up what it had stored", Effect::Stops);
  run.event(at_s - 1.0, "up24", "turns off: too little input", Effect::Stops);
  run.event(at_s - 0.5, "up24", "comes on", Effect::Resumes);
  run.event(at_s - 0.1, "f_sea", "blows", Effect::Breaks);
  run.lost("sea", 2.0);
  CHECK(only_outage(run).ended_by == "f_sea blows");
}

TEST_CASE("a board that cuts days after the load has gone is not what took the load") {
  HutRun run(80.0 * hour_s);
  run.event(run.loss_s() + 4.0 * hour_s, "up24", "turns off: too hot", Effect::Stops);
  run.lost("sea", 4.0 * hour_s).lost("radio", 4.0 * hour_s);
  run.cut_off(75.0 * hour_s, "board", "cuts the discharge path: group 3 is empty");
  const Outage outage = only_outage(run);
  CHECK(outage.ended_by == "up24 turns off: too hot");
  CHECK(outage.cut_off_by == "board cuts the discharge path: group 3 is empty");
}

TEST_CASE("a run that the user stopped has not waited in vain for a full pack") {
  auto record = HutRun().never_full().record();
  record.is_partial = true;
  const auto outages = outages_of(record);
  REQUIRE(outages.size() == 1);
  CHECK_FALSE(outages.front().waited_for_full);
}

TEST_CASE("interruptions of one sort are listed up to three, and counted from four on") {
  using tideover::quantity::Second;
  using When = Interruption::When;
  std::vector<Interruption> some;
  const auto add = [&](When when, double length_s) {
    some.push_back({when, Second::of_si(100.0), Second::of_si(100.0 + length_s)});
  };
  add(When::AtLoss, 0.5);
  for (const double length_s : {2.0, 4.0, 3.0}) add(When::During, length_s);
  using tideover::question::lengths_in_words;
  CHECK(lengths_in_words(some, When::AtLoss) == "500 ms");
  CHECK(lengths_in_words(some, When::During) == "2 s, 4 s, 3 s");
  CHECK(lengths_in_words(some, When::AtReturn).empty());
  add(When::During, 1.0);
  CHECK(lengths_in_words(some, When::During) == "4 times 1 s to 4 s");
}

// What rules read from runs.
#include "finding/witness.hpp"

#include <doctest/doctest.h>

#include "finding/counts.hpp"
#include "finding/instant.hpp"
#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover;
using namespace tideover::finding;
using quantity::Second;
using quantity::Volt;
using test::beacon;
using test::BeaconRun;

TEST_CASE("the worst of all cases counts, with the case it was found in") {
  BeaconRun mild;
  mild.channel("lamp", "input voltage", Volt::dimension, 24.0, 23.0);
  BeaconRun harsh;
  harsh.channel("lamp", "input voltage", Volt::dimension, 25.0, 21.0);
  const auto build = beacon();
  const Evidence evidence{build, {{"as is", {}, &mild.record()}, {"worn", {}, &harsh.record()}}};
  const auto low = extreme(evidence, "lamp", "input voltage", Limits::Below);
  REQUIRE(low.has_value());
  CHECK(low->value_si == doctest::Approx(21.0));
  CHECK(when_and_where(*low) == "as the mains goes (worn)");
  CHECK(lasting_worst(evidence, "lamp", "input voltage", Limits::Above)->value_si ==
        doctest::Approx(25.0));
  CHECK_FALSE(extreme(evidence, "lamp", "no such channel", Limits::Above).has_value());
}

TEST_CASE("a rating is kept as long as it is exceeded no longer than it stands") {
  BeaconRun run;
  run.channel("up24", "share of rating", quantity::Ratio::dimension, 0.5, 1.2);
  run.overload("up24", "rated current", "share of rating", 1.0, 1.2);
  run.record().overloads.front().longest = Second::of_si(0.5);
  const auto build = beacon();
  const Evidence evidence{build, {{"as is", {}, &run.record()}}};
  const Rated rated{"up24", "share of rating", "rated current", 1.0};
  CHECK(judge_rated(evidence, rated)->finding.answer == Answer::Tight);
  run.record().overloads.front().longest = Second::of_si(60.0);
  CHECK(judge_rated(evidence, rated)->finding.answer == Answer::Fails);
}

TEST_CASE("outages of several stretches are one, and later ones are counted") {
  BeaconRun run;
  const auto hours = [](double h) { return Second::of_si(3600.0 * h); };
  run.record().stretches = {{hours(0.0), hours(1.0), "mains present", true, true},
                            {hours(1.0), hours(2.0), "mains absent", false, true},
                            {hours(2.0), hours(3.0), "lamp brighter", false, true},
                            {hours(3.0), hours(4.0), "mains present", true, true},
                            {hours(4.0), hours(5.0), "mains absent", false, true}};
  const auto darks = darks_of(run.record());
  REQUIRE(darks.size() == 2);
  CHECK(darks[0].ends == hours(3.0));
  CHECK(darks[0].mains_returns);
  CHECK_FALSE(darks[1].mains_returns);
  CHECK(show_instant(hours(0.5), darks) == "30 min from the start");
  CHECK(show_instant(hours(2.5), darks) == "1 h 30 min after the mains goes (outage 1)");
  CHECK(show_instant(hours(3.0), darks) == "as the mains comes back (outage 1)");
  CHECK(show_instant(hours(3.5), darks) == "30 min after the mains is back (outage 1)");
  CHECK(show_instant(hours(4.0), darks) == "as the mains goes (outage 2)");
}

TEST_CASE("findings are counted as one would say it") {
  const Rule& rule = charge_voltage();
  const auto one = [&](Answer answer) { return Found{&rule, {.part = "x", .answer = answer}}; };
  const std::vector<Found> all{one(Answer::Fails), one(Answer::Unknown), one(Answer::Tight),
                               one(Answer::Holds), one(Answer::Holds)};
  CHECK(counts_in_words(all) == "1 fails, 1 is unknown, 1 is tight, 2 hold");
  CHECK(others_in_words(all) == "3 findings more: 1 is unknown, 2 hold");
  CHECK(others_in_words(std::span(all).first(1)).empty());
}

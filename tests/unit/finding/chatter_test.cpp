// Parts that switch to and fro.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover;
using namespace tideover::finding;
using quantity::Second;
using test::ask;
using test::beacon;
using test::BeaconRun;

namespace {

// Twenty times within so many seconds, from so long after the loss of mains on.
run::Record with(const std::string& part, double from_s, double lasts_s) {
  BeaconRun run;
  const double first_s = 3600.0 + from_s;
  run.record().chatters.push_back({.part = part,
                                   .words = "starts",
                                   .times = 20,
                                   .first = Second::of_si(first_s),
                                   .last = Second::of_si(first_s + lasts_s),
                                   .period = Second::of_si(lasts_s / 19.0)});
  return run.record();
}

}  // namespace

TEST_CASE("a converter that starts every 10 s is told with its period and its thresholds") {
  const Finding found = ask(chatter(), beacon(), {with("up24", 600.0, 190.0)}).front();
  CHECK(found.answer == Answer::Tight);
  CHECK(found.measured->value_si == doctest::Approx(10.0));
  CHECK(found.sentence ==
        "up24 starts, 20 times, every 10 s, from 10 min after the mains goes (as is) on.");
  CHECK(found.advice ==
        "up24: lockout_release above 8 V, further from where it stops (7.44 V); or less resistance "
        "before it.");
}

TEST_CASE("each kind of part has its own threshold to move") {
  const auto advice = [](const char* part) {
    return ask(chatter(), beacon(), {with(part, 600.0, 190.0)}).front().advice;
  };
  CHECK(advice("board").starts_with("board: under_voltage_release above 3 V"));
  CHECK(advice("charger").starts_with("charger: begins_again_below lower"));
  CHECK(advice("mains24").starts_with("mains24: it is overloaded"));
  CHECK(advice("lamp").starts_with("lamp: what feeds it must stay above"));
}

TEST_CASE("a stutter of seconds behind a pack that has just been cut off is nobody's worry") {
  run::Record record = with("up24", 7200.0, 3.0);
  record.pack_cut_offs.push_back({0.0, Second::of_si(3600.0 + 7199.0)});
  CHECK(ask(chatter(), beacon(), {record}).empty());
  CHECK(ask(chatter(), beacon(), {with("up24", 7200.0, 3.0)}).size() == 1);
}

TEST_CASE("a part is told once, by the first case in which it chatters") {
  const auto found = ask(chatter(), beacon(), {with("up24", 60.0, 190.0), with("up24", 0.0, 95.0)});
  REQUIRE(found.size() == 1);
  CHECK(found.front().measured->value_si == doctest::Approx(10.0));
}

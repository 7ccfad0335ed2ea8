// What is broken or the wrong way round, and ratings that have no rule of their own.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover;
using namespace tideover::finding;
using quantity::Ampere;
using quantity::Second;
using quantity::Volt;
using test::ask;
using test::beacon;
using test::BeaconRun;

TEST_CASE("given a load whose voltage is negative, plus and minus are swapped") {
  BeaconRun run;
  run.channel("lamp", "input voltage", Volt::dimension, -23.0, -23.0);
  run.overload("lamp", "polarity", "input voltage", -0.5, -23.0);
  run.record().overloads.back().is_polarity = true;
  const Finding found = ask(polarity(), beacon(), {run.record()}).front();
  CHECK(found.answer == Answer::Fails);
  CHECK(found.brief == "lamp is fed backwards");
  CHECK(found.advice == "lamp: plus and minus are swapped, at it or on the way to it.");
  // And it is no rating beside that.
  CHECK(ask(rating(), beacon(), {run.record()}).empty());
}

TEST_CASE("given a diode that only blocks while the lamp goes dark at once, it is turned round") {
  BeaconRun run;
  run.channel("d_pack", "current", Ampere::dimension, 0.0, 0.0);
  run.channel("d_pack", "reverse voltage", Volt::dimension, 3.0, 20.0);
  CHECK(ask(polarity(), beacon(), {run.record()}).empty());
  const auto hours = [](double h) { return Second::of_si(3600.0 * h); };
  run.record().services.front().served = {{hours(0.0), hours(1.0)}, {hours(6.0), hours(16.0)}};
  const auto found = ask(polarity(), beacon(), {run.record()});
  REQUIRE(found.size() == 1);
  CHECK(found.front().part == "d_pack");
  CHECK(found.front().measured->value_si == doctest::Approx(20.0));
}

TEST_CASE("given a fuse that blows, it is told once with what it carried") {
  BeaconRun run;
  run.channel("f_pack", "current", Ampere::dimension, 0.5, 9.0);
  run.record().events.push_back(
      {Second::of_si(3600.0), "f_pack", "blows", network::Effect::Breaks});
  const auto found = ask(breaks(), beacon(), {run.record(), run.record()});
  REQUIRE(found.size() == 1);
  CHECK(found.front().answer == Answer::Fails);
  CHECK(found.front().sentence ==
        "f_pack blows as the mains goes, having carried up to 9 A (as is).");
}

TEST_CASE("given a pack that is cut off at the start, it is told, unless the sheet empties it") {
  BeaconRun run;
  run.record().pack_cut_offs.push_back({0.0, Second::of_si(0.0)});
  CHECK(ask(pack_off(), beacon(), {run.record()}).front().answer == Answer::Fails);
  auto emptied = beacon();
  emptied.start.charge["pack"] = {};
  CHECK(ask(pack_off(), emptied, {run.record()}).empty());
}

TEST_CASE("given a diode that stands more than it is made for, its rating is told") {
  BeaconRun run;
  run.channel("d_pack", "reverse voltage", Volt::dimension, 0.0, 42.0);
  run.overload("d_pack", "reverse voltage", "reverse voltage", 40.0, 42.0);
  const auto found = ask(rating(), beacon(), {run.record()});
  REQUIRE(found.size() == 1);
  CHECK(found.front().margin.value() == doctest::Approx(-0.05));
  CHECK(found.front().advice ==
        "d_pack: one made for 42 V or more, or see to it that it gets less.");
}

TEST_CASE("given a rating that has a rule of its own, it is not told twice") {
  BeaconRun run;
  run.channel("lamp", "input voltage", Volt::dimension, 29.0, 24.0);
  run.overload("lamp", "highest input voltage", "input voltage", 28.0, 29.0);
  CHECK(ask(rating(), beacon(), {run.record()}).empty());
}

#include "question/standby.hpp"

#include <doctest/doctest.h>

#include "finding/lasting.hpp"
#include "question/predict.hpp"
#include "support/hut.hpp"

using namespace tideover::question;
using namespace tideover::quantity::literals;
using tideover::quantity::Second;
using tideover::test::hut;
using tideover::test::HutRun;

TEST_CASE("while all is well, what adapters give and devices do not take is the supply's own") {
  const Standby standby = standby_of(hut(), HutRun().record());
  REQUIRE(standby.adapters.size() == 1);
  CHECK(standby.adapters[0].power.si() == doctest::Approx(24.1 * 0.75));
  CHECK(standby.loads.si() == doctest::Approx(24.0 * 0.125 + 12.0 * 0.25));
  CHECK(standby.pack.si() == doctest::Approx(20.0 * 0.01));
  CHECK(standby.supply.si() == doctest::Approx(24.1 * 0.75 + 0.2 - 6.0));
}

TEST_CASE("head-room is the share of rating, with the time spent near it") {
  auto record = HutRun().record();
  auto& share = record.samples_si[6];
  // After the return it falls from 1.1 to 0.7 in ten hours: below 0.9 after half of them.
  share[4] = 1.1;
  share[5] = 0.7;
  const auto rooms = head_room_of(hut(), record);
  REQUIRE(rooms.size() == 1);
  CHECK(rooms[0].adapter == "mains24");
  CHECK(rooms[0].standby.si() == doctest::Approx(0.5));
  CHECK(rooms[0].near.si() == doctest::Approx(5.0 * 3600.0));
}

TEST_CASE("in the long dark, the weakest group's fall below its lowest voltage ends the wait") {
  auto record = HutRun().record();
  record.channels.push_back({"pack", "group 2 voltage", tideover::quantity::Volt::dimension});
  // Resting at 3.0 V after the cut-off, 2.6 V at the end: 2.8 V half way through the last stretch.
  record.samples_si.push_back({4.0, 4.0, 2.7, 3.0, 3.0, 2.6});
  record.pack_cut_offs = {{0.0, record.instants[2]}};
  const Keeping keeping = keeping_of(hut(), record);
  REQUIRE(keeping.was_tried);
  REQUIRE(keeping.lasts);
  const Second half = record.instants[4] + 0.5 * (record.instants[5] - record.instants[4]);
  CHECK(keeping.lasts->si() == doctest::Approx((half - record.instants[2]).si()));
  CHECK(keeping.group == "pack, group 2");
}

TEST_CASE("a group that stays above its lowest voltage is watched to the end") {
  auto record = HutRun().record();
  record.channels.push_back({"pack", "group 1 voltage", tideover::quantity::Volt::dimension});
  record.samples_si.push_back({4.0, 4.0, 4.0, 3.9, 3.9, 3.8});
  const Keeping keeping = keeping_of(hut(), record);
  CHECK(keeping.was_tried);
  CHECK_FALSE(keeping.lasts);
  CHECK(keeping.watched == record.instants.back());
}

TEST_CASE("without samples nothing is claimed") {
  CHECK_FALSE(keeping_of(hut(), {}).was_tried);
  CHECK(head_room_of(hut(), {}).empty());
  CHECK(standby_of(hut(), {}).adapters.empty());
}

TEST_CASE("only a timeline with a long enough outage can judge the needs") {
  using tideover::build::Change;
  using tideover::build::Stretch;
  using tideover::build::Timeline;
  using tideover::build::Until;
  const auto needs = hut().needs;
  const auto timeline = [](Change change, double lasts_s, Until until) {
    Stretch stretch;
    stretch.changes = {change};
    if (lasts_s > 0.0) stretch.lasts = tideover::quantity::Value<Second>(Second::of_si(lasts_s));
    stretch.until = until;
    return Timeline{"one", {stretch}, 1};
  };
  Change away;
  away.what = Change::What::Mains;
  away.mains = Change::Mains::Absent;
  Change one_plug = away;
  one_plug.part = "mains24";
  CHECK(can_judge(timeline(away, 0.0, Until::AllLoadsLost), needs));
  CHECK(can_judge(timeline(away, 4.0 * 3600.0, Until::Time), needs));
  CHECK_FALSE(can_judge(timeline(away, 3.0 * 3600.0, Until::Time), needs));
  CHECK_FALSE(can_judge(timeline(away, 60.0, Until::PackCutOff), needs));
  CHECK_FALSE(can_judge(timeline(one_plug, 0.0, Until::AllLoadsLost), needs));
  CHECK_FALSE(can_judge({}, needs));
}

TEST_CASE("what lasts is told from what flashes by") {
  tideover::run::Record record;
  record.channels = {{"leads.plus", "current", tideover::quantity::Ampere::dimension}};
  for (const double at : {0.0, 100.0, 100.0, 100.001, 100.001, 200.0}) {
    record.instants.push_back(Second::of_si(at));
  }
  // Two amperes backwards for a hundred seconds, thirty for a millisecond, one for a hundred.
  record.samples_si = {{-2.0, -2.0, 30.0, 30.0, 1.0, 1.0}};
  CHECK(tideover::finding::lasting_size_si(record, 0) == doctest::Approx(2.0).epsilon(30e-3 / 2.0));
  CHECK(tideover::finding::lasting_size_si({}, 0) == 0.0);
}

// Which of two fuses in a row clears first, over all currents.
#include "question/fuse_race.hpp"

#include <cmath>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "part/fuse/fuse_band.hpp"
#include "part/fuse/fuse_gates.hpp"
#include "support/closeness.hpp"
#include "support/part_bench.hpp"

using namespace tideover;
using namespace tideover::quantity;
using namespace tideover::quantity::literals;
using part::Fuse;
using part::FuseStyle;
using question::First;
using question::fuse_race;
using question::FuseRace;
using tests::stated;

namespace {

Fuse fuse_of(const char* name, FuseStyle style, double rated_a) {
  Fuse fuse;
  fuse.name = name;
  fuse.style = style;
  fuse.rated = stated(Ampere::of_si(rated_a));
  REQUIRE(fuse.contradictions().empty());
  return fuse;
}

First at(const FuseRace& race, double current_a) {
  for (const question::RaceStretch& one : race.stretches) {
    if (current_a >= one.from.si() && current_a <= one.to.si()) return one.first;
  }
  FAIL("no such current");
  return First::None;
}

}  // namespace

TEST_CASE("a 5 A blade behind a 30 A blade goes first at every current") {
  const Fuse before = fuse_of("f_pack", FuseStyle::Blade, 30.0);
  const Fuse behind = fuse_of("f_lamp", FuseStyle::Blade, 5.0);
  const FuseRace race = fuse_race(before, behind, 400.0_A);
  REQUIRE(race.stretches.size() == 1);
  CHECK(race.stretches.front().first == First::Behind);
  CHECK(race.stretches.front().from == 30.0_A);
  CHECK(race.stretches.front().to == 400.0_A);
  CHECK(race.is_selective());
  CHECK_FALSE(race.is_the_wrong_way());
  // ISO 8820-3 (from memory): 5 A opens within 0.1 s at 30 A, so it lets no more than 90 A2s
  // through; 30 A takes 0.04 s or more at 105 A, 441 A2s.
  REQUIRE(race.lets_through);
  REQUIRE(race.melts_from);
  CHECK(race.lets_through->si() <= 90.0);
  CHECK(race.melts_from->si() >= 441.0);
}

TEST_CASE("the same two the other way round: the small one takes everything down") {
  const Fuse before = fuse_of("f_pack", FuseStyle::Blade, 5.0);
  const Fuse behind = fuse_of("f_lamp", FuseStyle::Blade, 30.0);
  const FuseRace race = fuse_race(before, behind, 400.0_A);
  REQUIRE(race.stretches.size() == 1);
  CHECK(race.stretches.front().first == First::Before);
  CHECK(race.is_the_wrong_way());
}

TEST_CASE("of two equal fuses either may go first at every current that opens them") {
  const Fuse before = fuse_of("f_pack", FuseStyle::Blade, 5.0);
  const Fuse behind = fuse_of("f_lamp", FuseStyle::Blade, 5.0);
  const FuseRace race = fuse_race(before, behind, 300.0_A);
  // 110 % is carried for good.
  REQUIRE(race.stretches.size() == 2);
  CHECK(race.stretches.front().first == First::None);
  CHECK(race.stretches.front().to > 5.5_A);
  CHECK(race.stretches.back().first == First::Uncertain);
  CHECK_FALSE(race.is_selective());
}

TEST_CASE("a quick one behind a time-lag one of its rating is sure from where their gates part") {
  const Fuse before = fuse_of("f_pack", FuseStyle::TimeLag, 2.0);
  const Fuse behind = fuse_of("f_lamp", FuseStyle::Quick, 2.0);
  const FuseRace race = fuse_race(before, behind, 200.0_A);
  REQUIRE(race.stretches.size() == 3);
  CHECK(race.stretches[0].first == First::None);
  CHECK(race.stretches[1].first == First::Uncertain);
  CHECK(race.stretches[2].first == First::Behind);
  // IEC 60127-2 (restated, read). Quick at the latest: 0.3 s at 4 times rated, 0.02 s at 10 times;
  // time-lag at the earliest: 0.15 s and 0.02 s. Edges keep two hundredths of the width of their
  // band inside it, straight on log axes; the quick one's lower edge goes on from 0.01 s at
  // constant I2t.
  const double quick_at_4 = std::log(0.3) - 0.02 * std::log(0.3 / (0.01 * std::pow(30.0, 0.02)));
  const double lower_at_10 = 0.01 * std::pow(30.0, 0.02) * 16.0 / 100.0;
  const double quick_at_10 = std::log(0.02) - 0.02 * std::log(0.02 / lower_at_10);
  const double lag_at_4 = std::log(0.15) + 0.02 * std::log(3.0 / 0.15);
  const double lag_at_10 = std::log(0.02) + 0.02 * std::log(0.3 / 0.02);
  const double apart_at_4 = quick_at_4 - lag_at_4;
  const double apart_at_10 = quick_at_10 - lag_at_10;
  REQUIRE(apart_at_4 > 0.0);
  REQUIRE(apart_at_10 < 0.0);
  const double along = apart_at_4 / (apart_at_4 - apart_at_10);
  const double crossing_a = 2.0 * 4.0 * std::pow(10.0 / 4.0, along);
  // The curve is laid in steps of 4 %: half of one.
  CHECK(tests::relative_error(race.stretches[2].from.si(), crossing_a) < 0.02);
}

TEST_CASE("by the gates alone, without a line between, the same two are sure at ten times rated") {
  const FuseRace race = fuse_race(fuse_of("f_pack", FuseStyle::TimeLag, 2.0),
                                  fuse_of("f_lamp", FuseStyle::Quick, 2.0), 200.0_A);
  CHECK(at(race, 8.0) == First::Uncertain);  // 0.3 s against 0.15 s
  CHECK(at(race, 20.0) == First::Behind);    // both 0.02 s: each keeps inside its own gate
}

TEST_CASE("where no more flows than the larger rating there is nothing to tell") {
  const FuseRace race = fuse_race(fuse_of("f_pack", FuseStyle::Blade, 5.0),
                                  fuse_of("f_lamp", FuseStyle::Blade, 3.0), 4.0_A);
  CHECK(race.stretches.empty());
  CHECK(race.is_selective());
}

TEST_CASE("stretches meet, alternate and cover the whole range, whatever the fuses") {
  const auto any_fuse = [] {
    const auto style = *rc::gen::element(FuseStyle::Quick, FuseStyle::TimeLag, FuseStyle::Ul,
                                         FuseStyle::UlTimeDelay, FuseStyle::Blade);
    return fuse_of("f", style, *rc::gen::element(0.5, 1.0, 2.0, 3.0, 5.0, 6.3));
  };
  CHECK(rc::check([&] {
    const Fuse before = any_fuse();
    const Fuse behind = any_fuse();
    const FuseRace race = fuse_race(before, behind, 250.0_A);
    RC_ASSERT(race.stretches.front().from ==
              std::max(before.rated.nominal(), behind.rated.nominal()));
    RC_ASSERT(race.stretches.back().to == 250.0_A);
    const part::FuseBand first(before);
    const part::FuseBand second(behind);
    for (std::size_t k = 0; k < race.stretches.size(); ++k) {
      const auto& one = race.stretches[k];
      RC_ASSERT(one.from < one.to);
      if (k > 0) RC_ASSERT(one.from == race.stretches[k - 1].to);
      if (k > 0) RC_ASSERT(one.first != race.stretches[k - 1].first);
      // What is called sure is so in the middle of its stretch, at the edges of both bands.
      const Ampere middle = std::sqrt((one.to / one.from).si()) * one.from;
      if (one.first == First::Behind && first.earliest(middle)) {
        RC_ASSERT(second.latest(middle).value() < first.earliest(middle).value());
      }
      if (one.first == First::Before && second.earliest(middle)) {
        RC_ASSERT(first.latest(middle).value() < second.earliest(middle).value());
      }
    }
  }));
}

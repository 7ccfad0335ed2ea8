// Which fuse goes first and what a lead stands, against datasheets, standards and handbook figures.
// Selectivity by energy is IEC 60269-1 practice, from memory: what the one behind lets through in
// all is less than what the one before takes to melt. The arc's share is left out.
#include <algorithm>

#include <doctest/doctest.h>

#include "finding/lead_short.hpp"
#include "part/fuse/fuse_band.hpp"
#include "question/fuse_race.hpp"
#include "support/closeness.hpp"
#include "support/part_bench.hpp"

using namespace tideover;
using namespace tideover::quantity;
using namespace tideover::quantity::literals;
using part::Fuse;
using part::FuseStyle;
using question::First;
using question::fuse_race;
using tests::stated;

namespace {

Fuse fuse_of(FuseStyle style, double rated_a, double melting_a2s = 0.0) {
  Fuse fuse;
  fuse.name = "f";
  fuse.style = style;
  fuse.rated = stated(Ampere::of_si(rated_a));
  if (melting_a2s > 0.0) fuse.melting = stated(AmpereSquaredSecond::of_si(melting_a2s));
  REQUIRE(fuse.contradictions().empty());
  return fuse;
}

First first_at(const Fuse& before, const Fuse& behind, double current_a) {
  const auto race = fuse_race(before, behind, Ampere::of_si(2.0 * current_a));
  for (const question::RaceStretch& one : race.stretches) {
    if (current_a >= one.from.si() && current_a < one.to.si()) return one.first;
  }
  return First::None;
}

// Of one maker at ten times rated (dtsheet.com 892966, read).
Fuse ceramic(double rated_a, double melting_a2s) {
  return fuse_of(FuseStyle::TimeLagHighBreaking, rated_a, melting_a2s);
}

}  // namespace

TEST_CASE("time-lag 5x20 fuses by their melting I2t: 1 A before 2 A before 5 A (read)") {
  const Fuse one = ceramic(1.0, 1.7);
  const Fuse two = ceramic(2.0, 11.0);
  const Fuse five = ceramic(5.0, 128.0);
  // 11 / 1.7 = 6.5 and 128 / 11 = 11.6: more than the 1.3 squared that a figure without a tolerance
  // leaves open.
  CHECK(first_at(two, one, 100.0) == First::Behind);
  CHECK(first_at(five, two, 100.0) == First::Behind);
  CHECK(first_at(five, one, 100.0) == First::Behind);
}

TEST_CASE("two makers' 2 A fuses, 11 and 9.2 A2s, are not told apart by that (read)") {
  CHECK(first_at(ceramic(2.0, 11.0), ceramic(2.0, 9.2), 100.0) == First::Uncertain);
  CHECK(first_at(ceramic(2.0, 9.2), ceramic(2.0, 11.0), 100.0) == First::Uncertain);
}

TEST_CASE("a 40 A large blade of 8500 A2s outlasts a 20 A blade (second-hand)") {
  // A 20 A blade opens within 0.1 s at 600 % (ISO 8820-3, from memory): 1440 A2s at most.
  const Fuse large = fuse_of(FuseStyle::LargeBlade, 40.0, 8500.0);
  const Fuse blade = fuse_of(FuseStyle::Blade, 20.0);
  CHECK(fuse_race(large, blade, 500.0_A).is_selective());
}

TEST_CASE("2.8 A through two fuses of 2 A: the UL one goes, wherever it stands (both standards)") {
  // An IEC fuse carries 1.5 times its rating for an hour, a UL one opens at 1.35 times.
  const Fuse iec = fuse_of(FuseStyle::TimeLag, 2.0);
  const Fuse ul = fuse_of(FuseStyle::Ul, 2.0);
  CHECK(first_at(iec, ul, 2.8) == First::Behind);
  CHECK(first_at(ul, iec, 2.8) == First::Before);
}

TEST_CASE("two to one in rating is a hand rule: of blades it leaves some currents open") {
  // Common practice, no source. At 350 % of 10 A, 35 A, the 10 A blade opens after 0.04 s or more,
  // the 5 A one, at 700 %, within 0.1 s times the square of 6/7 or sooner: not sure.
  const Fuse ten = fuse_of(FuseStyle::Blade, 10.0);
  const Fuse five = fuse_of(FuseStyle::Blade, 5.0);
  const auto race = fuse_race(ten, five, 300.0_A);
  CHECK_FALSE(race.is_selective());
  CHECK_FALSE(race.is_the_wrong_way());
}

TEST_CASE("a 5 A time-lag fuse of 128 A2s protects 0.5 mm2 of PVC 26 times over (calculated)") {
  part::Wire wire;
  wire.size = stated(0.5_mm2);
  wire.length = stated(Metre::of_si(1.0));
  const Ampere current = 200.0_A;
  const Second stands =
      finding::standing_time(wire, current, Temperature::of_celsius(30.0)).value();
  // k2S2 of 3306 A2s, IEC 60364-4-43 with k = 115 (from memory, calculated).
  CHECK(tests::relative_error((current * current * stands).si(), 3306.0) < 1e-3);
  Fuse fuse = ceramic(5.0, 128.0);
  fuse.melting = Value<AmpereSquaredSecond>(AmpereSquaredSecond::of_si(127.9),
                                            AmpereSquaredSecond::of_si(128.0),
                                            AmpereSquaredSecond::of_si(128.1));
  const Second opens = part::FuseBand(fuse).latest(current).value();
  // 2 % for what the element still loses meanwhile and for the sampling of the curve.
  CHECK((stands / opens).si() == doctest::Approx(25.8).epsilon(0.02));
}

#include "drawing/flag_rows.hpp"

#include <algorithm>
#include <vector>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "drawing/point.hpp"

using namespace tideover::drawing;

namespace {

// A row is 1 high here and row 0 lies at 0: the words as boxes, the poles as lines up from 0.
Box words_box(const Flag& flag, FlagPlace place) {
  const FlagExtent extent = flag_extent(flag, place);
  return {extent.left_mm, static_cast<double>(place.row), extent.right_mm, place.row + 1.0};
}

bool pole_cuts(const Flag& flag, FlagPlace place, const Box& words) {
  return flag.x_mm > words.left_mm && flag.x_mm < words.right_mm && place.row + 1.0 > words.top_mm;
}

}  // namespace

TEST_CASE("given any events, no flag covers another and no pole runs through words") {
  CHECK(rc::check([] {
    std::vector<Flag> flags(*rc::gen::inRange<std::size_t>(0, 16));
    for (Flag& flag : flags) {
      flag = {*rc::gen::inRange(0, 1800) / 10.0, *rc::gen::inRange(10, 400) / 10.0};
    }
    std::sort(flags.begin(), flags.end(),
              [](const Flag& a, const Flag& b) { return a.x_mm < b.x_mm; });
    const auto places = place_flags(flags, 0.0, 180.0, 12);
    RC_CLASSIFY(places.has_value() && flags.size() > 3, "placed, more than three");
    if (!places) return;
    for (std::size_t i = 0; i < flags.size(); ++i) {
      const Box words = words_box(flags[i], (*places)[i]);
      RC_ASSERT(words.left_mm >= 0.0);
      RC_ASSERT(words.right_mm <= 180.0);
      RC_ASSERT((*places)[i].row < 12);
      for (std::size_t k = 0; k < flags.size(); ++k) {
        if (k == i) continue;
        RC_ASSERT(!words.overlaps(words_box(flags[k], (*places)[k])));
        RC_ASSERT(!pole_cuts(flags[k], (*places)[k], words));
      }
    }
  }));
}

TEST_CASE("given events far apart, all flags fly in the lowest row") {
  const std::vector<Flag> flags{{10.0, 20.0}, {60.0, 20.0}, {120.0, 20.0}};
  const auto places = place_flags(flags, 0.0, 180.0, 3);
  REQUIRE(places);
  for (const FlagPlace place : *places) CHECK(place == FlagPlace{0, false});
}

TEST_CASE("given events of one instant, their flags stack in order with the first on top") {
  const std::vector<Flag> flags{{50.0, 20.0}, {50.0, 25.0}, {50.0, 15.0}};
  const auto places = place_flags(flags, 0.0, 180.0, 3);
  REQUIRE(places);
  CHECK((*places)[0].row == 2);
  CHECK((*places)[1].row == 1);
  CHECK((*places)[2].row == 0);
}

TEST_CASE("given an event at the right edge, its words stand left of the pole") {
  const auto places = place_flags(std::vector<Flag>{{175.0, 20.0}}, 0.0, 180.0, 3);
  REQUIRE(places);
  CHECK((*places)[0] == FlagPlace{0, true});
}

TEST_CASE("given more words than rows, nothing is placed rather than something unreadable") {
  const std::vector<Flag> flags(5, Flag{10.0, 20.0});  // too near the left edge to fly leftward
  CHECK_FALSE(place_flags(flags, 0.0, 180.0, 4));
  CHECK(place_flags(flags, 0.0, 180.0, 5));
  CHECK(place_flags({}, 0.0, 180.0, 0));
}

#include "drawing/folded_time.hpp"

#include <cmath>
#include <vector>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "base/contract.hpp"
#include "drawing/lettering.hpp"

using namespace tideover::drawing;

namespace {

const std::vector<TimeStretch> outage{
    {.from_s = 0.0, .to_s = 1799.98, .share = 1.0},
    {.from_s = 1799.98, .to_s = 1800.08, .share = 2.0, .counted_from_s = 1800.0},
    {.from_s = 1800.08, .to_s = 20000.0, .share = 3.0},
};

}  // namespace

TEST_CASE("given stretches with shares, each gets its part of the width and time runs on") {
  const FoldedTime time(outage, 10.0, 136.0);
  REQUIRE(time.stretches().size() == 3);
  // Two gaps of 3 mm leave 120 mm for six shares.
  CHECK(time.stretches()[0].right_mm == doctest::Approx(30.0));
  CHECK(time.stretches()[1].left_mm == doctest::Approx(33.0));
  CHECK(time.stretches()[1].right_mm == doctest::Approx(73.0));
  CHECK(time.stretches()[2].right_mm == doctest::Approx(136.0));
  REQUIRE(time.x_mm(1800.0));
  CHECK(*time.x_mm(1800.0) == doctest::Approx(33.0 + 40.0 * 0.02 / 0.1));
  CHECK_FALSE(time.x_mm(-1.0));
  CHECK_FALSE(time.x_mm(20001.0));
}

TEST_CASE("given the instant of a fold, it stands where the later stretch begins") {
  const FoldedTime time(outage, 10.0, 136.0);
  CHECK(*time.x_mm(1800.08) == doctest::Approx(76.0));
}

TEST_CASE("given time left out between stretches, it has no place") {
  const FoldedTime time({{.from_s = 0.0, .to_s = 1.0}, {.from_s = 5.0, .to_s = 6.0}}, 0.0, 100.0);
  CHECK_FALSE(time.x_mm(3.0));
  CHECK(time.x_mm(5.5));
}

TEST_CASE("given stretches that overlap, run backwards or have no share, it is an inside error") {
  using tideover::base::ContractFault;
  const auto axis = [](const std::vector<TimeStretch>& stretches) {
    return FoldedTime(stretches, 0.0, 100.0);
  };
  CHECK_THROWS_AS(axis({}), ContractFault);
  CHECK_THROWS_AS(axis({{.from_s = 1.0, .to_s = 1.0}}), ContractFault);
  CHECK_THROWS_AS(axis({{.from_s = 0.0, .to_s = 2.0}, {.from_s = 1.0, .to_s = 3.0}}),
                  ContractFault);
  CHECK_THROWS_AS(axis({{.from_s = 0.0, .to_s = 2.0, .share = 0.0}}), ContractFault);
}

TEST_CASE("a stretch counted from an instant names it and tells the rest from there") {
  const FoldedTime time(outage, 10.0, 136.0);
  std::vector<std::string> words;
  for (const PlacedTick& tick : placed_ticks(time, 2.4)) {
    if (tick.x_mm > 33.0 && tick.x_mm < 73.1) words.push_back(tick.label);
  }
  CHECK(words == std::vector<std::string>{"30 min", "+50 ms"});
}

TEST_CASE("given any folded axis, no tick label touches another and each stays by its tick") {
  CHECK(rc::check([] {
    std::vector<TimeStretch> stretches;
    const int count = *rc::gen::inRange(1, 5);
    double at_s = *rc::gen::inRange(0, 100000);
    for (int i = 0; i < count; ++i) {
      const double length_s = std::pow(10.0, *rc::gen::inRange(-50, 80) / 10.0);
      stretches.push_back(
          {.from_s = at_s, .to_s = at_s + length_s, .share = 1.0 * *rc::gen::inRange(1, 10)});
      if (*rc::gen::arbitrary<bool>()) stretches.back().counted_from_s = at_s;
      at_s += length_s;
    }
    const FoldedTime time(stretches, 12.0, 150.0);
    double free_from_mm = 0.0;
    for (const PlacedTick& tick : placed_ticks(time, 2.4)) {
      const double half_mm = text_width_mm(tick.label, 2.4) / 2.0;
      RC_ASSERT(tick.label_x_mm - half_mm > free_from_mm);
      RC_ASSERT(std::abs(tick.label_x_mm - tick.x_mm) <= half_mm);
      free_from_mm = tick.label_x_mm + half_mm + 0.9;
    }
    RC_ASSERT(free_from_mm < 160.0);
  }));
}

#include "drawing/line_names.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include <doctest/doctest.h>
#include <rapidcheck.h>

using namespace tideover::drawing;

TEST_CASE("given lines that end apart, each name stands at its line") {
  const std::vector<Slot> slots{{10.0, 3.0}, {30.0, 3.0}, {20.0, 3.0}};
  CHECK(spread(slots, 0.0, 40.0) == std::vector<double>{10.0, 30.0, 20.0});
}

TEST_CASE("given lines that end together, names part and stay inside the field") {
  const std::vector<Slot> slots{{39.0, 3.0}, {39.5, 3.0}, {0.0, 3.0}};
  const std::vector<double> middles = spread(slots, 0.0, 40.0);
  CHECK(middles[1] == doctest::Approx(38.5));
  CHECK(middles[0] == doctest::Approx(35.5));
  CHECK(middles[2] == doctest::Approx(1.5));
}

TEST_CASE("given any line ends with room enough, names keep their order and never overlap") {
  CHECK(rc::check([] {
    std::vector<Slot> slots;
    double needed_mm = 0.0;
    for (const int wish : *rc::gen::container<std::vector<int>>(rc::gen::inRange(-100, 500))) {
      slots.push_back({wish / 10.0, *rc::gen::inRange(10, 60) / 10.0});
      needed_mm += slots.back().height_mm;
    }
    const double bottom_mm = needed_mm + *rc::gen::inRange(0, 300) / 10.0;
    const std::vector<double> middles = spread(slots, 0.0, bottom_mm);
    for (std::size_t i = 0; i < slots.size(); ++i) {
      RC_ASSERT(middles[i] - slots[i].height_mm / 2.0 >= -1e-9);
      RC_ASSERT(middles[i] + slots[i].height_mm / 2.0 <= bottom_mm + 1e-9);
      for (std::size_t k = 0; k < i; ++k) {
        const double apart_mm = std::abs(middles[i] - middles[k]);
        RC_ASSERT(apart_mm >= (slots[i].height_mm + slots[k].height_mm) / 2.0 - 1e-9);
        if (slots[k].wish_mm < slots[i].wish_mm) RC_ASSERT(middles[k] < middles[i]);
      }
    }
  }));
}

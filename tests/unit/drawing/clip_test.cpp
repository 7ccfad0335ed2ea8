#include "drawing/clip.hpp"

#include <cmath>

#include <doctest/doctest.h>
#include <rapidcheck.h>

using namespace tideover::drawing;

namespace {

const Box field{10.0, 20.0, 50.0, 60.0};

bool is_within(const Point& at) {
  constexpr double slack_mm = 1e-9;
  return at.x_mm >= field.left_mm - slack_mm && at.x_mm <= field.right_mm + slack_mm &&
         at.y_mm >= field.top_mm - slack_mm && at.y_mm <= field.bottom_mm + slack_mm;
}

double area_mm2(const std::vector<Point>& area) {
  double twice = 0.0;
  for (std::size_t k = 0; k < area.size(); ++k) {
    const Point& a = area[k];
    const Point& b = area[(k + 1) % area.size()];
    twice += a.x_mm * b.y_mm - b.x_mm * a.y_mm;
  }
  return std::abs(twice) / 2.0;
}

}  // namespace

TEST_CASE("a line inside stays as it is, one outside goes") {
  const std::vector<Point> inside{{12.0, 30.0}, {40.0, 50.0}, {45.0, 22.0}};
  const auto pieces = clipped_line(inside, field);
  REQUIRE(pieces.size() == 1);
  CHECK(pieces.front() == inside);
  CHECK(clipped_line({{0.0, 0.0}, {5.0, 90.0}}, field).empty());
  // Past a corner, outside of two edges in turn.
  CHECK(clipped_line({{5.0, 24.0}, {12.0, 15.0}}, field).empty());
}

TEST_CASE("a line that leaves and comes back is two pieces that end at the edge") {
  const auto pieces = clipped_line({{20.0, 40.0}, {60.0, 40.0}, {60.0, 50.0}, {20.0, 50.0}}, field);
  REQUIRE(pieces.size() == 2);
  CHECK(pieces[0].back() == Point{50.0, 40.0});
  CHECK(pieces[1].front() == Point{50.0, 50.0});
}

TEST_CASE("a line through the field is cut at both edges") {
  const auto pieces = clipped_line({{0.0, 40.0}, {100.0, 40.0}}, field);
  REQUIRE(pieces.size() == 1);
  CHECK(pieces.front() == std::vector<Point>{{10.0, 40.0}, {50.0, 40.0}});
}

TEST_CASE("an area that covers the field becomes the field") {
  CHECK(area_mm2(clipped_area({{0.0, 0.0}, {90.0, 0.0}, {90.0, 90.0}, {0.0, 90.0}}, field)) ==
        doctest::Approx(1600.0));
  CHECK(clipped_area({{0.0, 0.0}, {5.0, 0.0}, {5.0, 90.0}}, field).empty());
}

TEST_CASE("half of a square that hangs over an edge is left") {
  CHECK(area_mm2(clipped_area({{40.0, 30.0}, {60.0, 30.0}, {60.0, 50.0}, {40.0, 50.0}}, field)) ==
        doctest::Approx(200.0));
}

TEST_CASE("nothing that is left lies outside") {
  CHECK(rc::check([] {
    std::vector<Point> points;
    const int count = *rc::gen::inRange(3, 9);
    for (int k = 0; k < count; ++k) {
      points.push_back({static_cast<double>(*rc::gen::inRange(-100, 200)),
                        static_cast<double>(*rc::gen::inRange(-100, 200))});
    }
    for (const auto& piece : clipped_line(points, field)) {
      RC_ASSERT(piece.size() >= 2U);
      for (const Point& at : piece) RC_ASSERT(is_within(at));
    }
    for (const Point& at : clipped_area(points, field)) RC_ASSERT(is_within(at));
  }));
}

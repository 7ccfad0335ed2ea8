#include "drawing/dimension.hpp"

#include <cmath>
#include <vector>

#include <doctest/doctest.h>

using namespace tideover::drawing;

namespace {

template <class Form>
std::vector<Form> all(const Group& group) {
  std::vector<Form> found;
  for (const Shape& shape : group.shapes) {
    if (const auto* form = std::get_if<Form>(&shape.form)) found.push_back(*form);
  }
  return found;
}

}  // namespace

TEST_CASE("given a width, the dimension line lies above it at its offset with the figure on it") {
  const Group group = dimension({25.0, 20.0}, {95.0, 20.0}, 8.0, "70");
  const auto lines = all<Line>(group);
  REQUIRE(lines.size() == 3);
  CHECK(lines[0].from == Point{25.0, 12.0});
  CHECK(lines[0].to == Point{95.0, 12.0});
  // Extension lines start clear of the outline and run past the dimension line.
  CHECK(lines[1].from.y_mm < 20.0);
  CHECK(lines[1].to.y_mm < 12.0);
  const auto texts = all<Text>(group);
  REQUIRE(texts.size() == 1);
  CHECK(texts[0].at.x_mm == doctest::Approx(60.0));
  CHECK(texts[0].at.y_mm < 12.0);
  CHECK(texts[0].rotation_deg == doctest::Approx(0.0));
}

TEST_CASE("whichever way a dimension runs, its figure reads from below or from the right") {
  for (const double angle : {0.0, 30.0, 90.0, 135.0, 180.0, 225.0, 270.0, 300.0}) {
    CAPTURE(angle);
    const double turn = angle * std::acos(-1.0) / 180.0;
    const Group group = dimension(
        {50.0, 50.0}, {50.0 + 30.0 * std::cos(turn), 50.0 + 30.0 * std::sin(turn)}, 5.0, "30");
    const auto texts = all<Text>(group);
    REQUIRE(texts.size() == 1);
    CHECK(texts[0].rotation_deg >= -90.0 - 1e-6);
    CHECK(texts[0].rotation_deg < 90.0 - 1e-6);
  }
}

TEST_CASE("given a distance too short for two arrowheads, they point at it from outside") {
  const auto heads = all<Polygon>(dimension({60.0, 60.0}, {62.0, 60.0}, -6.0, "2"));
  REQUIRE(heads.size() == 2);
  for (const Point base : {heads[0].points[1], heads[0].points[2]}) CHECK(base.x_mm < 60.0);
  for (const Point base : {heads[1].points[1], heads[1].points[2]}) CHECK(base.x_mm > 62.0);
}

TEST_CASE("given a hole, its diameter stands at the end of a leader from its edge") {
  const Circle hole{.centre = {45.0, 40.0}, .radius_mm = 6.0};
  const Group group = diameter_dimension(hole, 0.0, 10.0, "⌀12");
  const auto leaders = all<Polyline>(group);
  REQUIRE(leaders.size() == 1);
  CHECK(leaders[0].points.front() == Point{51.0, 40.0});
  CHECK(leaders[0].points[1] == Point{61.0, 40.0});
  CHECK(all<Text>(group)[0].anchor == Anchor::Start);
  CHECK(all<Text>(diameter_dimension(hole, 180.0, 10.0, "⌀12"))[0].anchor == Anchor::End);
}

#include "drawing/dimension.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/contract.hpp"
#include "drawing/lettering.hpp"

namespace tideover::drawing {

namespace {

constexpr double arrow_length_mm = 1.8;
constexpr double clear_of_outline_mm = 1.0;
constexpr double past_the_line_mm = 1.5;
constexpr double letters_mm = 2.4;
constexpr double line_width_mm = 0.15;

/// A direction of length 1.
struct Way {
  double x = 1.0;
  double y = 0.0;
};

Way way(Point from, Point to) {
  const double length_mm = std::hypot(to.x_mm - from.x_mm, to.y_mm - from.y_mm);
  TIDEOVER_EXPECT(length_mm > 0.0, "a dimension has a length");
  return {(to.x_mm - from.x_mm) / length_mm, (to.y_mm - from.y_mm) / length_mm};
}

Point moved(Point point, Way way, double distance_mm) {
  return {point.x_mm + distance_mm * way.x, point.y_mm + distance_mm * way.y};
}

Polygon arrowhead(Point tip, Way back, double length_mm, Ink ink) {
  const Point base = moved(tip, back, length_mm);
  const Way across{-back.y, back.x};
  return {
      .points = {tip, moved(base, across, length_mm / 6.0), moved(base, across, -length_mm / 6.0)},
      .stroke = std::nullopt,
      .fill = SolidFill{ink}};
}

// Arrowheads within the distance, or from outside where it is too short for them.
Group arrows(Point from, Point to) {
  const Way along = way(from, to);
  const Way against{-along.x, -along.y};
  if (std::hypot(to.x_mm - from.x_mm, to.y_mm - from.y_mm) >= 3.0 * arrow_length_mm) {
    return measured_line(from, to);
  }
  Group group;
  group.shapes.emplace_back(Line{moved(from, against, 2.0 * arrow_length_mm),
                                 moved(to, along, 2.0 * arrow_length_mm),
                                 {.width_mm = line_width_mm}});
  group.shapes.emplace_back(arrowhead(from, against, arrow_length_mm, Ink::Main));
  group.shapes.emplace_back(arrowhead(to, along, arrow_length_mm, Ink::Main));
  return group;
}

}  // namespace

Group measured_line(Point from, Point to, Ink ink) {
  const Way along = way(from, to);
  const Way against{-along.x, -along.y};
  const double head_mm =
      std::min(arrow_length_mm, std::hypot(to.x_mm - from.x_mm, to.y_mm - from.y_mm) / 3.0);
  Group group;
  group.shapes.emplace_back(Line{from, to, {.width_mm = line_width_mm, .ink = ink}});
  group.shapes.emplace_back(arrowhead(from, along, head_mm, ink));
  group.shapes.emplace_back(arrowhead(to, against, head_mm, ink));
  return group;
}

Group dimension(Point from, Point to, double offset_mm, const std::string& words) {
  const Way along = way(from, to);
  const double side = offset_mm < 0.0 ? -1.0 : 1.0;
  const Way outwards{side * along.y, -side * along.x};
  const double distance_mm = std::abs(offset_mm);
  const Stroke thin{.width_mm = line_width_mm};
  Group group = arrows(moved(from, outwards, distance_mm), moved(to, outwards, distance_mm));
  for (const Point foot : {from, to}) {
    group.shapes.emplace_back(Line{moved(foot, outwards, clear_of_outline_mm),
                                   moved(foot, outwards, distance_mm + past_the_line_mm), thin});
  }
  // Words stand above the line as read: upright, or along it from the right-hand edge of the page.
  const bool backwards = along.x < -1e-9 || (std::abs(along.x) <= 1e-9 && along.y > 0.0);
  const Way reading = backwards ? Way{-along.x, -along.y} : along;
  const Way above{reading.y, -reading.x};
  const Point middle{(from.x_mm + to.x_mm) / 2.0, (from.y_mm + to.y_mm) / 2.0};
  group.shapes.emplace_back(
      Text{.at = moved(moved(middle, outwards, distance_mm), above, 0.7),
           .words = words,
           .size_mm = letters_mm,
           .anchor = Anchor::Middle,
           .rotation_deg = std::atan2(reading.y, reading.x) * 180.0 / std::numbers::pi});
  group.title = words;
  return group;
}

Group diameter_dimension(const Circle& circle, double angle_deg, double leader_mm,
                         const std::string& words) {
  const double angle = angle_deg * std::numbers::pi / 180.0;
  const Way outwards{std::cos(angle), std::sin(angle)};
  const Point edge = moved(circle.centre, outwards, circle.radius_mm);
  const Point knee = moved(edge, outwards, leader_mm);
  const bool rightwards = outwards.x >= 0.0;
  const double shelf_mm = (rightwards ? 1.0 : -1.0) * (text_width_mm(words, letters_mm) + 1.0);
  const Point end{knee.x_mm + shelf_mm, knee.y_mm};
  Group group;
  group.title = words;
  group.shapes.emplace_back(Polyline{{edge, knee, end}, {.width_mm = line_width_mm}});
  group.shapes.emplace_back(arrowhead(edge, outwards, arrow_length_mm, Ink::Main));
  group.shapes.emplace_back(Text{.at = {knee.x_mm + (rightwards ? 0.5 : -0.5), knee.y_mm - 0.7},
                                 .words = words,
                                 .size_mm = letters_mm,
                                 .anchor = rightwards ? Anchor::Start : Anchor::End});
  return group;
}

}  // namespace tideover::drawing

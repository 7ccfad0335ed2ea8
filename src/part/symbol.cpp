#include "part/symbol.hpp"

#include <algorithm>
#include <cmath>

#include "drawing/lettering.hpp"

namespace tideover::part {

using drawing::Box;
using drawing::Point;

namespace {

constexpr drawing::Stroke stroke{.width_mm = 0.25};
constexpr drawing::Stroke dashes{.width_mm = 0.18, .dash = drawing::Dash::Short};
/// How far a box stands inside its frame: the length of the lines to its terminals.
constexpr double reach_mm = 2.5;
constexpr double between_pins_mm = 2.0 * symbol_module_mm;
constexpr double word_size_mm = 2.6;

double on_grid(double length_mm) {
  return std::ceil(length_mm / between_pins_mm - 1e-9) * between_pins_mm;
}

}  // namespace

SymbolPen::SymbolPen(double width_mm, double height_mm) {
  symbol_.width_mm = width_mm;
  symbol_.height_mm = height_mm;
}

void SymbolPen::pin(std::string terminal, Point at, Point inner) {
  symbol_.pins.push_back({std::move(terminal), at});
  line({at, inner});
}

void SymbolPen::line(std::vector<Point> points) {
  symbol_.strokes.emplace_back(drawing::Polyline{std::move(points), stroke});
}

void SymbolPen::dashed(std::vector<Point> points) {
  symbol_.strokes.emplace_back(drawing::Polyline{std::move(points), dashes});
}

void SymbolPen::box(Box box) {
  symbol_.strokes.emplace_back(drawing::Rectangle{.box = box, .stroke = stroke, .fill = {}});
}

void SymbolPen::closed(std::vector<Point> points, bool is_solid) {
  drawing::Polygon polygon{.points = std::move(points), .stroke = stroke, .fill = {}};
  if (is_solid) polygon.fill = drawing::SolidFill{drawing::Ink::Main};
  symbol_.strokes.emplace_back(std::move(polygon));
}

void SymbolPen::circle(Point centre, double radius_mm) {
  symbol_.strokes.emplace_back(
      drawing::Circle{.centre = centre, .radius_mm = radius_mm, .stroke = stroke, .fill = {}});
}

void SymbolPen::arc(Point centre, double radius_mm, double start_deg, double sweep_deg) {
  symbol_.strokes.emplace_back(drawing::Arc{centre, radius_mm, start_deg, sweep_deg, stroke});
}

void SymbolPen::word(Point middle, std::string words, double size_mm) {
  const Point at{middle.x_mm, middle.y_mm + 0.5 * drawing::cap_height * size_mm};
  symbol_.strokes.emplace_back(drawing::Text{
      .at = at, .words = std::move(words), .size_mm = size_mm, .anchor = drawing::Anchor::Middle});
}

void SymbolPen::plus(Point middle) {
  constexpr double arm_mm = 0.6;
  line({{middle.x_mm - arm_mm, middle.y_mm}, {middle.x_mm + arm_mm, middle.y_mm}});
  line({{middle.x_mm, middle.y_mm - arm_mm}, {middle.x_mm, middle.y_mm + arm_mm}});
}

void SymbolPen::diode(Point middle, bool points_left) {
  constexpr double half_mm = 2.0;
  const double way_mm = points_left ? -half_mm : half_mm;
  const Point tip{middle.x_mm + way_mm, middle.y_mm};
  const double back_mm = middle.x_mm - way_mm;
  closed({{back_mm, middle.y_mm - half_mm}, {back_mm, middle.y_mm + half_mm}, tip}, false);
  line({{tip.x_mm, tip.y_mm - half_mm}, {tip.x_mm, tip.y_mm + half_mm}});
  line({{back_mm, middle.y_mm}, tip});
}

Symbol boxed(const std::string& word, const Sides& sides) {
  const auto rows = static_cast<double>(std::max({sides.left.size(), sides.right.size(), 1UL}));
  const auto columns = static_cast<double>(sides.below.size());
  const double inside_mm =
      std::max(drawing::text_width_mm(word, word_size_mm) + 2.0, between_pins_mm * columns);
  const double height_mm = between_pins_mm * (rows + 1.0);
  SymbolPen pen(on_grid(inside_mm + 2.0 * reach_mm), height_mm);
  const double width_mm = on_grid(inside_mm + 2.0 * reach_mm);
  const Box box{reach_mm, reach_mm, width_mm - reach_mm, height_mm - reach_mm};
  pen.box(box);
  pen.word({0.5 * width_mm, 0.5 * height_mm}, word, word_size_mm);
  double y_mm = between_pins_mm;
  for (const std::string& terminal : sides.left) {
    pen.pin(terminal, {0.0, y_mm}, {box.left_mm, y_mm});
    y_mm += between_pins_mm;
  }
  y_mm = between_pins_mm;
  for (const std::string& terminal : sides.right) {
    pen.pin(terminal, {width_mm, y_mm}, {box.right_mm, y_mm});
    y_mm += between_pins_mm;
  }
  double x_mm = between_pins_mm;
  for (const std::string& terminal : sides.below) {
    pen.pin(terminal, {x_mm, height_mm}, {x_mm, box.bottom_mm});
    x_mm += between_pins_mm;
  }
  return std::move(pen).done();
}

}  // namespace tideover::part

/// A figure is a value: shapes on a page measured in millimetres. It knows no file format;
/// writers such as svg.hpp read it.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "drawing/point.hpp"
#include "drawing/style.hpp"

namespace tideover::drawing {

struct Line {
  Point from;
  Point to;
  Stroke stroke;
};

/// Two points or more.
struct Polyline {
  std::vector<Point> points;
  Stroke stroke;
};

/// Closed; three points or more.
struct Polygon {
  std::vector<Point> points;
  std::optional<Stroke> stroke = Stroke{};
  Fill fill;
};

struct Rectangle {
  Box box;
  double corner_radius_mm = 0.0;
  std::optional<Stroke> stroke = Stroke{};
  Fill fill;
};

struct Circle {
  Point centre;
  double radius_mm = 1.0;  ///< > 0
  std::optional<Stroke> stroke = Stroke{};
  Fill fill;
};

/// Angles from the x axis, clockwise on the page; a negative sweep runs anticlockwise.
struct Arc {
  Point centre;
  double radius_mm = 1.0;  ///< > 0
  double start_deg = 0.0;
  double sweep_deg = 90.0;  ///< above -360, below 360; a full turn is a Circle
  Stroke stroke;
};

enum class Anchor { Start, Middle, End };

/// One line of words in UTF-8, standing on the baseline through `at`.
struct Text {
  Point at;
  std::string words;
  double size_mm = 2.6;  ///< height of the letter body (the em), > 0
  Anchor anchor = Anchor::Start;
  double rotation_deg = 0.0;  ///< about `at`, clockwise on the page
  Ink ink = Ink::Main;
  bool bold = false;
};

struct Shape;

/// Shapes that belong together, with words for whoever cannot see them.
struct Group {
  std::string title;        ///< may be empty
  std::string description;  ///< may be empty
  std::vector<Shape> shapes;
};

struct Shape {
  std::variant<Line, Polyline, Polygon, Rectangle, Circle, Arc, Text, Group> form;

  Shape(Line line) : form(line) {}
  Shape(Polyline polyline) : form(std::move(polyline)) {}
  Shape(Polygon polygon) : form(std::move(polygon)) {}
  Shape(Rectangle rectangle) : form(rectangle) {}
  Shape(Circle circle) : form(circle) {}
  Shape(Arc arc) : form(arc) {}
  Shape(Text text) : form(std::move(text)) {}
  Shape(Group group) : form(std::move(group)) {}
};

/// Shapes are drawn in their order, the later over the earlier.
struct Figure {
  double width_mm = 180.0;   ///< > 0
  double height_mm = 100.0;  ///< > 0
  std::string title;         ///< what it is, in a few words
  std::string description;   ///< what it shows, in sentences
  std::vector<Shape> shapes;
};

}  // namespace tideover::drawing

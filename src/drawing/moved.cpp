#include "drawing/moved.hpp"

namespace tideover::drawing {

namespace {

Point operator+(Point a, Point b) { return {a.x_mm + b.x_mm, a.y_mm + b.y_mm}; }

struct Mover {
  Point by;

  Shape operator()(Line line) const {
    line.from = line.from + by;
    line.to = line.to + by;
    return line;
  }
  Shape operator()(Polyline polyline) const {
    for (Point& point : polyline.points) point = point + by;
    return polyline;
  }
  Shape operator()(Polygon polygon) const {
    for (Point& point : polygon.points) point = point + by;
    return polygon;
  }
  Shape operator()(Rectangle rectangle) const {
    Box& box = rectangle.box;
    box = {box.left_mm + by.x_mm, box.top_mm + by.y_mm, box.right_mm + by.x_mm,
           box.bottom_mm + by.y_mm};
    return rectangle;
  }
  Shape operator()(Circle circle) const {
    circle.centre = circle.centre + by;
    return circle;
  }
  Shape operator()(Arc arc) const {
    arc.centre = arc.centre + by;
    return arc;
  }
  Shape operator()(Text text) const {
    text.at = text.at + by;
    return text;
  }
  Shape operator()(Group group) const {
    for (Shape& shape : group.shapes) shape = moved(shape, by);
    return group;
  }
};

}  // namespace

Shape moved(const Shape& shape, Point by) { return std::visit(Mover{by}, shape.form); }

}  // namespace tideover::drawing

/// Places on the page, in millimetres: x to the right, y down, origin at the top left corner.
#pragma once

namespace tideover::drawing {

struct Point {
  double x_mm = 0.0;
  double y_mm = 0.0;

  [[nodiscard]] bool operator==(const Point&) const = default;
};

/// An upright rectangle that keeps `left_mm <= right_mm` and `top_mm <= bottom_mm`.
struct Box {
  double left_mm = 0.0;
  double top_mm = 0.0;
  double right_mm = 0.0;
  double bottom_mm = 0.0;

  [[nodiscard]] double width_mm() const { return right_mm - left_mm; }
  [[nodiscard]] double height_mm() const { return bottom_mm - top_mm; }
  /// True where the insides share a point; boxes that only touch do not overlap.
  [[nodiscard]] bool overlaps(const Box& other) const {
    return left_mm < other.right_mm && other.left_mm < right_mm && top_mm < other.bottom_mm &&
           other.top_mm < bottom_mm;
  }
  [[nodiscard]] bool operator==(const Box&) const = default;
};

}  // namespace tideover::drawing

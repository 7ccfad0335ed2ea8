/// What of a line or an area lies inside a box.
#pragma once

#include <vector>

#include "drawing/point.hpp"

namespace tideover::drawing {

/// The pieces of a line inside the box, in order, cut where it leaves and enters.
/// Source: parametric clipping of Liang and Barsky, ACM Trans. Graphics 3 (1984) 1 (from memory).
[[nodiscard]] std::vector<std::vector<Point>> clipped_line(const std::vector<Point>& line,
                                                           const Box& box);

/// The part of a closed area inside the box; empty where there is none. Of an area that is not
/// convex, pieces may hang together along an edge of the box.
/// Source: Sutherland and Hodgman, Comm. ACM 17 (1974) 32 (from memory).
[[nodiscard]] std::vector<Point> clipped_area(std::vector<Point> area, const Box& box);

}  // namespace tideover::drawing

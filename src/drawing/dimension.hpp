/// Dimension lines. Proportions after ISO 129-1 practice, from memory: extension lines clear of the
/// outline and a little past the dimension line, closed arrowheads three times as long as wide, the
/// figure above the line, readable from below or from the right.
#pragma once

#include <string>

#include "drawing/figure.hpp"

namespace tideover::drawing {

/// A line with an arrowhead at each end, pointing outwards. `from` and `to` differ.
[[nodiscard]] Group measured_line(Point from, Point to, Ink ink = Ink::Main);

/// Dimensions the distance between two points on a line `offset_mm` beside them: to the left of the
/// way from `from` to `to` when positive, to its right when negative.
[[nodiscard]] Group dimension(Point from, Point to, double offset_mm, const std::string& words);

/// Dimensions a circle by a leader from its edge, at `angle_deg` (clockwise on the page), with the
/// words at its end; the words bring their own diameter sign.
[[nodiscard]] Group diameter_dimension(const Circle& circle, double angle_deg, double leader_mm,
                                       const std::string& words);

}  // namespace tideover::drawing

/// Where a line goes up and down faster than print can show, a thick smear would hide its dashes
/// and its course. Such parts are drawn as the ground it covers and, through it, its mean over
/// time.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "drawing/point.hpp"

namespace tideover::drawing {

/// Samples first .. end-1.
struct Section {
  std::size_t first = 0;
  std::size_t end = 0;
  bool flutters = false;
};

/// Splits a line into parts that can be drawn and parts that flutter: three turns or more of at
/// least 0.04 mm in each 0.6 mm of width, for 1.8 mm or longer. A leap far beyond the flutter
/// around it is a part by itself and is drawn, so that a step stays a step. x never falls; a y that
/// is not finite does not flutter.
[[nodiscard]] std::vector<Section> sections(std::span<const double> x_mm,
                                            std::span<const double> y_mm);

struct Flutter {
  std::vector<Point> ground;  ///< closed outline: highest and lowest of each 0.6 mm
  std::vector<Point> mean;    ///< trapezoid mean over x of each 0.6 mm
};

/// Of one fluttering section.
[[nodiscard]] Flutter flutter(std::span<const double> x_mm, std::span<const double> y_mm);

}  // namespace tideover::drawing

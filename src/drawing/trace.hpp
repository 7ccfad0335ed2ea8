/// From samples to a line on the page.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "drawing/axis.hpp"
#include "drawing/folded_time.hpp"
#include "drawing/point.hpp"

namespace tideover::drawing {

struct Samples {
  std::vector<double> t_s;
  std::vector<double> y;
};

/// The samples from `from_s` to `to_s`, with points put in on the line where it enters and leaves.
[[nodiscard]] Samples clipped(std::span<const double> t_s, std::span<const double> y, double from_s,
                              double to_s);

/// Place of a value in the field of a panel. On a log scale both ends and the value are above zero.
struct FieldScale {
  Range range;
  Scale scale = Scale::Linear;
  double top_mm = 0.0;
  double bottom_mm = 0.0;

  [[nodiscard]] double y_mm(double value) const;
};

/// One series in one stretch, as it is drawn.
struct Trace {
  std::vector<std::vector<Point>> lines;    ///< unbroken, in order; one point is a dot
  std::vector<std::vector<Point>> grounds;  ///< closed; what the line covers where it flutters
};

/// Keeps only the points that show: the lowest and highest in each 0.1 mm of width, less those
/// within 0.02 mm of the straight line that replaces them; where the line flutters (flutter.hpp),
/// its mean and the ground it covers.
[[nodiscard]] Trace trace(std::span<const double> t_s, std::span<const double> y,
                          const PlacedStretch& stretch, const FieldScale& scale);

/// Leaves out points that lie within `tolerance_mm` (up or down) of the straight line that
/// replaces them. Ends stay. x never falls.
[[nodiscard]] std::vector<Point> straightened(const std::vector<Point>& points,
                                              double tolerance_mm);

}  // namespace tideover::drawing

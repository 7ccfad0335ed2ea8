/// Opening time against current, log-log straight between points: the edges of a fuse's band.
#pragma once

#include <vector>

#include "part/fuse/fuse_curve.hpp"

namespace tideover::part {

/// One corner: at `multiple` times rated current it opens after `opens_s`.
struct OpeningPoint {
  double multiple;
  double opens_s;
};

struct OpeningLine {
  double holds = 1.0;                ///< multiple that is carried for good
  std::vector<OpeningPoint> points;  ///< multiples rising, times falling

  /// Beyond the last point I2t is constant; `multiple` not below the first point's.
  [[nodiscard]] double opens_s(double multiple) const;
};

/// Preconditions as for FuseCurve.
[[nodiscard]] OpeningLine opening_line(const std::vector<Gate>& gates, FuseLaw law,
                                       MeltingIntegral melting);

}  // namespace tideover::part

/// The drawn time axis: baseline, ticks and labels, folds, and what stands below them.
#pragma once

#include <string>

#include "drawing/figure.hpp"
#include "drawing/folded_time.hpp"

namespace tideover::drawing {

struct TimeAxis {
  Group group;
  double height_mm = 0.0;  ///< room taken below the baseline
};

/// The baseline lies at `y_mm`. A folded axis says below each stretch what it is and how long.
[[nodiscard]] TimeAxis time_axis(const FoldedTime& time, double y_mm, const std::string& title);

}  // namespace tideover::drawing

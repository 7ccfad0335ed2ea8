/// From the numbers of a fit to a cell whose values have tolerances and origins.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "cell/fit.hpp"
#include "cell/fit_layout.hpp"
#include "numeric/least_squares.hpp"

namespace tideover::cell {

/// What happened before the last fit.
struct FitReport {
  struct LeftOut {
    std::string test;
    double capacity_ratio = 1.0;
  };
  std::vector<LeftOut> left_out;
};

/// `tests` are those of `layout`. A value is `measured`, with twice its standard error as
/// tolerance, if the logs tell it to better than six tenths of what the class left open; else it
/// stays the class's. A Problem if the result cannot be a cell.
[[nodiscard]] base::Result<FittedCell> fitted(const std::string& name, const CellClass& cell_class,
                                              const std::vector<FitTest>& tests,
                                              const FitLayout& layout,
                                              const numeric::LeastSquaresFit& fit,
                                              FitReport report);

}  // namespace tideover::cell

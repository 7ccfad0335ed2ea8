/// How much heat a cell takes up and how it gets rid of it, from the temperature of its case.
#pragma once

#include <optional>
#include <vector>

#include "cell/cell_law.hpp"
#include "cell/fit_test.hpp"
#include "cell/follow_test.hpp"

namespace tideover::cell {

struct HeatFit {
  double heat_j_per_k = 0.0;
  double to_air_k_per_w = 0.0;
  double heat_error_share = 0.0;  ///< standard errors over the values
  double to_air_error_share = 0.0;
  double rms_k = 0.0;
};

/// Fits both to the tests in which the case warmed by 2 K or more, each with its course; nothing if
/// there is none. Air is as logged, else as warm as the case was at the beginning.
[[nodiscard]] std::optional<HeatFit> fit_heat(const CellLaw& law, const std::vector<FitTest>& tests,
                                              const std::vector<TestCourse>& courses,
                                              const std::vector<double>& capacities_c);

}  // namespace tideover::cell

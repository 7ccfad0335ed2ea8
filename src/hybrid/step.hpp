/// One accepted step, as an observer sees it.
#pragma once

#include <span>
#include <vector>

#include "hybrid/tableau.hpp"

namespace tideover::hybrid {

/// From `begin_s` to `end_s`. The stages are full solutions of the system (algebraic unknowns
/// too) at begin_s + c[i] * length; stage 0 is the value before, the last stage the value after.
/// The integral over the step of any function g(y) is length * sum of weights[i] * g(stage i), to
/// the order of the method.
struct Step {
  double begin_s = 0.0;
  double end_s = 0.0;
  const Tableau* tableau = nullptr;
  std::span<const std::vector<double>> stages;
  std::span<const std::vector<double>> slopes;  ///< dy/dt at each stage, of differential unknowns
  std::span<const char> differential;

  [[nodiscard]] double length_s() const { return end_s - begin_s; }
  [[nodiscard]] std::span<const double> before() const { return stages.front(); }
  [[nodiscard]] std::span<const double> after() const { return stages.back(); }

  /// Dense output at begin_s + share * length, 0 <= share <= 1: cubic Hermite for differential
  /// unknowns, a parabola through begin, a middle stage and end for algebraic ones.
  void at(double share, std::span<double> y) const;
};

}  // namespace tideover::hybrid

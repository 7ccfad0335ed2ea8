/// Weighted nonlinear least squares: the parameters that make the sum of squared residuals least,
/// and how well they are known.
///
/// The search is Levenberg and Marquardt's (Eigen's), with derivatives by forward differences.
/// Residuals are expected divided by their standard deviation; what is known beforehand of a
/// parameter is one more residual. Plain doubles: the maker of the residuals knows the units.
#pragma once

#include <functional>
#include <span>
#include <vector>

namespace tideover::numeric {

struct LeastSquaresTask {
  /// Fills all residuals for the parameters. Called from one thread.
  std::function<void(std::span<const double> parameters, std::span<double> residuals)> residuals;
  int residual_count = 0;
  /// The group each residual belongs to, 0 and up; residuals of one group may be off together.
  /// -1: knowledge from beforehand, which is no measurement. Empty: each a group of its own.
  std::vector<int> group;
};

struct LeastSquaresFit {
  std::vector<double> parameters;
  std::vector<double> residuals;
  /// Standard errors: the larger of what the residuals' stated deviations give and of what the
  /// residuals really are, group by group, so that neighbours which are off together count once.
  /// Source of the latter: Liang and Zeger, Biometrika 73 (1986) 13, the estimator for clusters
  /// (from memory).
  std::vector<double> standard_errors;
  double sum_of_squares = 0.0;
  int evaluations = 0;
  bool has_settled = false;  ///< false: stopped by `most_evaluations`, or singular
};

/// From `start`. At least as many residuals as parameters.
[[nodiscard]] LeastSquaresFit fit_least_squares(const LeastSquaresTask& task,
                                                std::vector<double> start,
                                                int most_evaluations = 60);

/// Residual whose square grows with |r| and no longer with r*r beyond `knee`: an outlier pulls, but
/// not without bound. Source: Huber, Ann. Math. Statist. 35 (1964) 73 (from memory).
[[nodiscard]] double held_back(double residual, double knee);

}  // namespace tideover::numeric

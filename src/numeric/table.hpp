/// A curve through measured points that neither overshoots nor kinks.
/// Monotone piecewise cubic Hermite interpolation, slopes by Fritsch and Butland's weighted
/// harmonic mean. Source: Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300 (from
/// memory). Outside its ends the curve goes on as a straight line with the end slope.
#pragma once

#include <cstddef>
#include <vector>

#include "numeric/dual.hpp"

namespace tideover::numeric {

class Table {
 public:
  Table() = default;
  /// `x` strictly rising, same length as `y`, at least one point (one point: a constant).
  Table(std::vector<double> x, std::vector<double> y);

  template <class Real>
  [[nodiscard]] Real operator()(const Real& x) const {
    const Sample s = sample(value_of(x));
    return chained(x, s.value, s.slope);
  }
  [[nodiscard]] double slope(double x) const { return sample(x).slope; }
  /// Integral of the curve from its first point to x; exact for the interpolant.
  [[nodiscard]] double integral(double x) const;

  [[nodiscard]] bool is_empty() const { return x_.empty(); }
  [[nodiscard]] const std::vector<double>& x() const { return x_; }
  [[nodiscard]] const std::vector<double>& y() const { return y_; }
  /// The same abscissae with every ordinate scaled.
  [[nodiscard]] Table scaled(double factor) const;

 private:
  struct Sample {
    double value;
    double slope;
  };
  [[nodiscard]] Sample sample(double x) const;
  [[nodiscard]] std::size_t interval(double x) const;

  std::vector<double> x_;
  std::vector<double> y_;
  std::vector<double> slope_;
  std::vector<double> integral_;  ///< of the curve up to each point
};

}  // namespace tideover::numeric

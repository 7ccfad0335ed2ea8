#include "numeric/table.hpp"

#include <algorithm>

#include "base/contract.hpp"

namespace tideover::numeric {

namespace {

/// Slope at an inner point between secants a (width left) and b (width right).
double inner_slope(double left, double a, double right, double b) {
  if (a * b <= 0.0) return 0.0;
  const double w1 = 2.0 * right + left;
  const double w2 = right + 2.0 * left;
  return (w1 + w2) / (w1 / a + w2 / b);
}

/// One-sided three-point slope at an end, limited so that the end piece stays monotone.
double end_slope(double h0, double d0, double h1, double d1) {
  const double slope = ((2.0 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
  if (slope * d0 <= 0.0) return 0.0;
  if (d0 * d1 <= 0.0 && std::abs(slope) > 3.0 * std::abs(d0)) return 3.0 * d0;
  return slope;
}

/// Integral over the first `u` (0..1) of a Hermite piece of width h.
double piece_integral(double u, double h, double y0, double y1, double m0, double m1) {
  const double u2 = u * u;
  const double u3 = u2 * u;
  const double u4 = u3 * u;
  return h * (y0 * (u - u3 + 0.5 * u4) + y1 * (u3 - 0.5 * u4) +
              h * (m0 * (0.5 * u2 - 2.0 / 3.0 * u3 + 0.25 * u4) + m1 * (0.25 * u4 - u3 / 3.0)));
}

}  // namespace

Table::Table(std::vector<double> x, std::vector<double> y) : x_(std::move(x)), y_(std::move(y)) {
  TIDEOVER_EXPECT(!x_.empty() && x_.size() == y_.size(), "a table needs as many x as y");
  const std::size_t n = x_.size();
  slope_.assign(n, 0.0);
  integral_.assign(n, 0.0);
  if (n == 1) return;
  std::vector<double> h(n - 1);
  std::vector<double> d(n - 1);
  for (std::size_t k = 0; k + 1 < n; ++k) {
    h[k] = x_[k + 1] - x_[k];
    TIDEOVER_EXPECT(h[k] > 0.0, "a table's x must rise");
    d[k] = (y_[k + 1] - y_[k]) / h[k];
  }
  if (n == 2) {
    slope_.assign(2, d[0]);
  } else {
    slope_.front() = end_slope(h[0], d[0], h[1], d[1]);
    slope_.back() = end_slope(h[n - 2], d[n - 2], h[n - 3], d[n - 3]);
    for (std::size_t k = 1; k + 1 < n; ++k) slope_[k] = inner_slope(h[k - 1], d[k - 1], h[k], d[k]);
  }
  for (std::size_t k = 0; k + 1 < n; ++k) {
    integral_[k + 1] =
        integral_[k] + piece_integral(1.0, h[k], y_[k], y_[k + 1], slope_[k], slope_[k + 1]);
  }
}

std::size_t Table::interval(double x) const {
  const auto above = std::upper_bound(x_.begin() + 1, x_.end() - 1, x);
  return static_cast<std::size_t>(above - x_.begin()) - 1;
}

Table::Sample Table::sample(double x) const {
  if (x_.size() == 1) return {y_[0], 0.0};
  if (x <= x_.front()) return {y_.front() + slope_.front() * (x - x_.front()), slope_.front()};
  if (x >= x_.back()) return {y_.back() + slope_.back() * (x - x_.back()), slope_.back()};
  const std::size_t k = interval(x);
  const double h = x_[k + 1] - x_[k];
  const double u = (x - x_[k]) / h;
  const double v = 1.0 - u;
  const double rise = y_[k + 1] - y_[k];
  const double a = h * slope_[k];
  const double b = h * slope_[k + 1];
  const double value = y_[k] + rise * u * u * (3.0 - 2.0 * u) + u * v * (a * v - b * u);
  const double slope = (6.0 * rise * u * v + a * v * (1.0 - 3.0 * u) - b * u * (2.0 - 3.0 * u)) / h;
  return {value, slope};
}

double Table::integral(double x) const {
  if (x_.size() == 1) return y_[0] * (x - x_[0]);
  if (x <= x_.front()) {
    const double dx = x - x_.front();
    return dx * (y_.front() + 0.5 * slope_.front() * dx);
  }
  if (x >= x_.back()) {
    const double dx = x - x_.back();
    return integral_.back() + dx * (y_.back() + 0.5 * slope_.back() * dx);
  }
  const std::size_t k = interval(x);
  const double h = x_[k + 1] - x_[k];
  return integral_[k] +
         piece_integral((x - x_[k]) / h, h, y_[k], y_[k + 1], slope_[k], slope_[k + 1]);
}

Table Table::scaled(double factor) const {
  std::vector<double> y = y_;
  for (double& value : y) value *= factor;
  return {x_, std::move(y)};
}

}  // namespace tideover::numeric

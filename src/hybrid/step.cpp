#include "hybrid/step.hpp"

#include <cmath>

namespace tideover::hybrid {

void Step::at(double share, std::span<double> y) const {
  const double u = share;
  const double v = 1.0 - u;
  std::size_t middle = 1;
  for (std::size_t i = 1; i + 1 < stages.size(); ++i) {
    if (std::abs(tableau->c[i] - 0.5) < std::abs(tableau->c[middle] - 0.5)) middle = i;
  }
  const double m = tableau->c[middle];
  const double first = (u - m) * (u - 1.0) / m;
  const double second = u * (u - 1.0) / (m * (m - 1.0));
  const double third = u * (u - m) / (1.0 - m);
  const double h = length_s();
  for (std::size_t k = 0; k < y.size(); ++k) {
    const double y0 = stages.front()[k];
    const double y1 = stages.back()[k];
    if (differential[k] != 0) {
      const double a = h * slopes.front()[k];
      const double b = h * slopes.back()[k];
      y[k] = y0 + (y1 - y0) * u * u * (3.0 - 2.0 * u) + u * v * (a * v - b * u);
    } else {
      y[k] = first * y0 + second * stages[middle][k] + third * y1;
    }
  }
}

}  // namespace tideover::hybrid

/// Smooth stand-ins for corners. Each equals the sharp function exactly outside a window of
/// stated half-width and has a continuous second derivative inside it, so that a step of the
/// solver meets no kink and a limit that is far away leaves no trace.
#pragma once

#include "numeric/dual.hpp"

namespace tideover::numeric {

/// 0 below -width, 1 above +width, 3u2 - 2u3 between. width > 0.
template <class Real>
[[nodiscard]] Real smooth_step(const Real& x, double width) {
  const double u = 0.5 * (value_of(x) / width + 1.0);
  if (u <= 0.0) return chained(x, 0.0, 0.0);
  if (u >= 1.0) return chained(x, 1.0, 0.0);
  return chained(x, u * u * (3.0 - 2.0 * u), 3.0 * u * (1.0 - u) / width);
}

/// max(x, 0) with its corner rounded over +-width: the integral of smooth_step.
template <class Real>
[[nodiscard]] Real smooth_positive(const Real& x, double width) {
  const double u = 0.5 * (value_of(x) / width + 1.0);
  if (u <= 0.0) return chained(x, 0.0, 0.0);
  if (u >= 1.0) return x;
  return chained(x, 2.0 * width * u * u * u * (1.0 - 0.5 * u), u * u * (3.0 - 2.0 * u));
}

template <class Real>
[[nodiscard]] Real smooth_min(const Real& a, const Real& b, double width) {
  return a - smooth_positive(Real(a - b), width);
}
template <class Real>
[[nodiscard]] Real smooth_max(const Real& a, const Real& b, double width) {
  return b + smooth_positive(Real(a - b), width);
}

}  // namespace tideover::numeric

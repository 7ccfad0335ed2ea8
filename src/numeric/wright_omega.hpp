/// Wright's omega function: the w > 0 with w + ln w = x. It turns "exponential in series with a
/// resistance" into an explicit law that neither overflows nor needs an inner iteration.
/// Source: Fritsch, Shafer and Crowley, Comm. ACM 16 (1973) 123, algorithm 443, for the iteration;
/// Corless and Jeffrey, "The Wright omega function", 2002, for the name (both from memory).
#pragma once

#include "numeric/dual.hpp"

namespace tideover::numeric {

/// Any finite x; relative error below 1e-14. Underflows to 0 below x = -745.
[[nodiscard]] double wright_omega_value(double x);

/// d omega / dx = omega / (1 + omega).
template <class Real>
[[nodiscard]] Real wright_omega(const Real& x) {
  const double w = wright_omega_value(value_of(x));
  return chained(x, w, w / (1.0 + w));
}

}  // namespace tideover::numeric

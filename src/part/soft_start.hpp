/// The rise of a supply's set voltage after it has been switched on.
#pragma once

#include "numeric/smooth.hpp"

namespace tideover::part {

/// d(share)/dt [1/s] of the set voltage reached so far, 0..1: straight up over `rise_s`, then
/// settling at 1. At rest exactly at 1.
template <class Real>
[[nodiscard]] Real soft_start_rate(const Real& share, double rise_s) {
  const double steepest = 1.0 / rise_s;
  const Real closing = (1.0 - share) * (20.0 * steepest);
  return numeric::smooth_min(closing, Real(steepest), 0.1 * steepest);
}

}  // namespace tideover::part

/// A clamp: a small leak between two thresholds, a small resistance beyond them.
///
///     i = G v + (v - V+)/R+ above V+,  - (-v - V-)/R- below -V-,
/// with corners rounded over the first two hundredths beyond each threshold; nothing flows but the
/// leak inside them. Surge clamps, zener diodes and avalanche breakdown.
#pragma once

#include "network/law.hpp"
#include "numeric/smooth.hpp"

namespace tideover::part {

/// One side of a clamp. conductance 0: no clamping on that side.
struct ClampSide {
  double threshold_v = 0.0;
  double conductance_s = 0.0;

  /// Current at `v` [V] counted from zero towards this side.
  template <class Real>
  [[nodiscard]] Real current(const Real& v) const {
    const double width = 0.01 * threshold_v + 1e-3;
    return conductance_s * numeric::smooth_positive(Real(v - (threshold_v + width)), width);
  }
};

/// Ports: plus, minus, thermal node that takes the heat.
struct Clamp {
  static constexpr int ports = 3;
  static constexpr int states = 0;
  ClampSide above;
  ClampSide below;
  double leak_s = 1e-9;

  template <class Real>
  [[nodiscard]] Real current(const Real& v) const {
    return leak_s * v + above.current(v) - below.current(Real(-v));
  }
  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    const Real v = u[0] - u[1];
    flow[0] = current(v);
    flow[1] = -flow[0];
    flow[2] = -(flow[0] * v);
  }
  void ledger(const double* u, const double*, network::Ledger& books) const {
    const double v = u[0] - u[1];
    books.lost_w += v * current(v);
  }
};

}  // namespace tideover::part

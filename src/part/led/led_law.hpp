/// The current of a light-emitting diode behind its series resistor.
#pragma once

#include "network/law.hpp"
#include "numeric/smooth.hpp"

namespace tideover::part {

/// Ports: plus, minus. (v - Vf) / R above the forward voltage, nothing below, the corner rounded
/// over Vf +- 0.2 V; a leak of 1 nS keeps it from floating. All of its power is booked as lost.
struct LedLaw {
  static constexpr int ports = 2;
  static constexpr int states = 0;
  double forward_v = 2.0;
  double series_ohm = 1000.0;

  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    constexpr double corner_v = 0.2;
    constexpr double leak_s = 1e-9;
    const Real v = u[0] - u[1];
    flow[0] =
        numeric::smooth_positive(Real(v - forward_v), corner_v) * (1.0 / series_ohm) + leak_s * v;
    flow[1] = -flow[0];
  }
  void ledger(const double* u, const double*, network::Ledger& books) const {
    const double v = u[0] - u[1];
    books.lost_w += v * current_a_at(v);
  }
  /// [A] at `v` [V] between its terminals.
  [[nodiscard]] double current_a_at(double v) const {
    const double u[2] = {v, 0.0};
    double flow[2];
    equations(u, u, flow, flow);
    return flow[0];
  }
};

}  // namespace tideover::part

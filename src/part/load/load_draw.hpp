/// The current a load takes.
#pragma once

#include "network/law.hpp"
#include "numeric/smooth.hpp"

namespace tideover::part {

/// Ports: plus, minus. Constant power P above a stated voltage v0 and the resistance v0^2/P below,
/// so that a collapsing rail has a solution; constant current I likewise I v/v0 below. The corner
/// is rounded over v0 +- a tenth; above 1.1 v0 the law is exact.
struct LoadDraw {
  static constexpr int ports = 2;
  static constexpr int states = 0;
  double power_w = 0.0;
  double current_a = 0.0;
  double conductance_s = 0.0;
  double resistive_below_v = 1.0;
  double off_s = 0.0;  ///< what is left when it is off, as a conductance
  double share = 1.0;  ///< 1 while the device runs, 0 when it is off

  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    const Real v = u[0] - u[1];
    // max(v, v0), rounded: P/v above it, P v/v0^2 below.
    const Real held = numeric::smooth_max(v, Real(resistive_below_v), 0.1 * resistive_below_v);
    const Real ratio = v / held;
    flow[0] = share * (power_w * ratio / held + current_a * ratio + conductance_s * v) +
              (1.0 - share) * off_s * v;
    flow[1] = -flow[0];
  }
  void ledger(const double* u, const double*, network::Ledger& books) const {
    const double v = u[0] - u[1];
    const double off_w = (1.0 - share) * off_s * v * v;
    books.served_w += v * current_a_at(v) - off_w;
    books.lost_w += off_w;
  }
  /// Current at voltage `v` [V] with the present settings, in amperes.
  [[nodiscard]] double current_a_at(double v) const {
    const double u[2] = {v, 0.0};
    double flow[2];
    equations(u, u, flow, flow);
    return flow[0];
  }
};

}  // namespace tideover::part

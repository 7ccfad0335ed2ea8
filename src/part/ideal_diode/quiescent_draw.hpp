/// What a controller draws for itself.
#pragma once

#include "network/law.hpp"
#include "numeric/smooth.hpp"

namespace tideover::part {

/// Constant current above `full_above_v`, proportional to voltage below. Ports: plus, minus, body.
struct QuiescentDraw {
  static constexpr int ports = 3;
  static constexpr int states = 0;
  double current_a = 0.0;
  double full_above_v = 3.0;

  template <class Real>
  [[nodiscard]] Real current(const Real& v) const {
    return current_a * v / numeric::smooth_max(v, Real(full_above_v), 0.1 * full_above_v);
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

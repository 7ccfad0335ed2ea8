/// A conductance, and a second one past a knee.
#pragma once

#include "network/law.hpp"
#include "numeric/smooth.hpp"
#include "part/resistance.hpp"

namespace tideover::part {

/// i = G v + g (v - Vk) above the knee Vk, corner rounded over Vk +- `corner_v`: a straight line
/// past a knee is all that a switch's body diode, a rectifier with its inductor or a MOSFET held
/// at its drop need. Ports: from, to, body (thermal).
struct KneeLaw {
  static constexpr int ports = 3;
  static constexpr int states = 0;
  double conductance_s = open_conductance_s;
  double beyond_s = 0.0;
  double knee_v = 0.7;
  double corner_v = 0.1;

  template <class Real>
  [[nodiscard]] Real current(const Real& v) const {
    return conductance_s * v + beyond_s * numeric::smooth_positive(Real(v - knee_v), corner_v);
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

/// The MOSFET of an ideal diode as its controller lets it conduct.
#pragma once

#include "network/law.hpp"
#include "numeric/smooth.hpp"
#include "part/resistance.hpp"

namespace tideover::part {

/// i = G v + g (v - Vf) above Vf, corner rounded over Vf +- a quarter. The controller's two ways of
/// conducting are two settings of it:
///   regulating  G = leak, g = a multiple of 1/Ron: it holds the forward drop at Vf and blocks
///   back; full        G = 1/Ron, g = 0: fully on, both ways.
/// So the forward drop is Vf or Ron i, whichever is larger. Ports: anode, cathode, body.
struct GateChannel {
  static constexpr int ports = 3;
  static constexpr int states = 0;
  double conductance_s = open_conductance_s;
  double regulating_s = 0.0;
  double forward_v = 0.02;

  template <class Real>
  [[nodiscard]] Real current(const Real& v) const {
    return conductance_s * v +
           regulating_s * numeric::smooth_positive(Real(v - forward_v), 0.25 * forward_v);
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

/// The P-channel MOSFET of a reverse-polarity guard: its gate lies on the return.
#pragma once

#include "network/law.hpp"
#include "numeric/smooth.hpp"
#include "part/resistance.hpp"

namespace tideover::part {

/// Conductance from in to out rises from an open to 1/Ron as the output rises above the return
/// through the gate threshold to 1.5 times it. When it is on it conducts both ways: a guard against
/// wrong polarity is no diode. Ports: in, out, minus, body.
struct GuardChannel {
  static constexpr int ports = 4;
  static constexpr int states = 0;
  double on_s = 50.0;
  double threshold_v = 2.0;

  template <class Real>
  [[nodiscard]] Real conductance(const Real& gate_v) const {
    return open_conductance_s +
           on_s * numeric::smooth_step(Real(gate_v - 1.25 * threshold_v), 0.25 * threshold_v);
  }
  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    const Real v = u[0] - u[1];
    flow[0] = conductance(Real(u[1] - u[2])) * v;
    flow[1] = -flow[0];
    flow[2] = Real(0.0);
    flow[3] = -(flow[0] * v);
  }
  void ledger(const double* u, const double*, network::Ledger& books) const {
    const double v = u[0] - u[1];
    books.lost_w += conductance(u[1] - u[2]) * v * v;
  }
};

}  // namespace tideover::part

/// The way through a converter that no switch can close.
#pragma once

#include "network/law.hpp"
#include "numeric/smooth.hpp"

namespace tideover::part {

/// Ports: from, to, body (thermal). Conducts past `drop_v` with `path_ohm`, nothing below: a
/// straight line past a knee is all that a switch's body diode or a rectifier with its inductor
/// need here. The knee is rounded over +-0.1 V.
struct BodyDiode {
  static constexpr int ports = 3;
  static constexpr int states = 0;
  double drop_v = 0.7;
  double path_ohm = 0.1;

  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    const Real v = u[0] - u[1];
    flow[0] = numeric::smooth_positive(Real(v - drop_v), 0.1) * (1.0 / path_ohm);
    flow[1] = -flow[0];
    flow[2] = -(flow[0] * v);
  }
  void ledger(const double* u, const double*, network::Ledger& books) const {
    const double v = u[0] - u[1];
    books.lost_w += v * numeric::smooth_positive(v - drop_v, 0.1) / path_ohm;
  }
};

}  // namespace tideover::part

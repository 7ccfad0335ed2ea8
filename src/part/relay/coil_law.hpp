/// A relay's coil: copper and inductance.
#pragma once

#include "network/law.hpp"
#include "part/relay/copper_winding.hpp"

namespace tideover::part {

/// L di/dt = v - R(T) i, R(T) as copper has it. The armature's share in L is left out: L is the one
/// with the armature where it spends its time. Ports: plus, minus, winding temperature [K].
/// State: current [A]. Stored: L i^2 / 2.
struct Coil {
  static constexpr int ports = 3;
  static constexpr int states = 1;
  double resistance_ohm = 400.0;  ///< at reference_k
  double reference_k = 296.15;
  double inductance_h = 0.8;

  template <class Real>
  void equations(const Real* u, const Real* x, Real* flow, Real* rate) const {
    const Real resistance = resistance_ohm * copper_ratio(u[2], reference_k);
    const Real drop = resistance * x[0];
    flow[0] = x[0];
    flow[1] = -x[0];
    flow[2] = -(drop * x[0]);
    rate[0] = (u[0] - u[1] - drop) * (1.0 / inductance_h);
  }
  void ledger(const double* u, const double* x, network::Ledger& books) const {
    books.lost_w += resistance_ohm * copper_ratio(u[2], reference_k) * x[0] * x[0];
  }
  [[nodiscard]] double stored(const double* x) const { return 0.5 * inductance_h * x[0] * x[0]; }
};

}  // namespace tideover::part

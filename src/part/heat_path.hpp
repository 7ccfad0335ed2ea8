/// The way heat takes from one thermal node to another.
#pragma once

#include "network/law.hpp"

namespace tideover::part {

/// flow = G (T0 - T1), G constant: Fourier's law for a lumped path.
struct HeatPath {
  static constexpr int ports = 2;
  static constexpr int states = 0;
  double conductance_w_per_k = 0.0;

  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    flow[0] = conductance_w_per_k * (u[0] - u[1]);
    flow[1] = -flow[0];
  }
  void ledger(const double*, const double*, network::Ledger&) const {}
};

}  // namespace tideover::part

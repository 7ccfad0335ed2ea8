/// A bench supply for tests: a voltage behind a resistance.
#pragma once

#include "network/law.hpp"

namespace tideover::tests {

/// Ports: plus, minus. Raise `source_ohm` to unplug it.
struct Source {
  static constexpr int ports = 2;
  static constexpr int states = 0;
  double volt_v = 12.0;
  double source_ohm = 1e-3;

  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    flow[0] = (u[0] - u[1] - volt_v) * (1.0 / source_ohm);
    flow[1] = -flow[0];
  }
  void ledger(const double* u, const double*, network::Ledger& books) const {
    const double current_a = (volt_v - u[0] + u[1]) / source_ohm;
    books.supplied_w += volt_v * current_a;
    books.lost_w += current_a * current_a * source_ohm;
  }
};

}  // namespace tideover::tests

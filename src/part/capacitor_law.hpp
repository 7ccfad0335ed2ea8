/// A capacitance with series resistance and leakage; state: the charge-free voltage [V] across C.
#pragma once

#include "network/law.hpp"

namespace tideover::part {

/// i = (u0 - u1 - v) / ESR,  C dv/dt = i - G_leak v. The series resistance keeps two capacitances
/// on one rail from forming a loop of index 2.
struct Capacitance {
  static constexpr int ports = 2;
  static constexpr int states = 1;
  double capacitance_f = 1e-6;
  double esr_ohm = 0.05;
  double leak_s = 0.0;

  template <class Real>
  void equations(const Real* u, const Real* x, Real* flow, Real* rate) const {
    flow[0] = (u[0] - u[1] - x[0]) * (1.0 / esr_ohm);
    flow[1] = -flow[0];
    rate[0] = (flow[0] - leak_s * x[0]) * (1.0 / capacitance_f);
  }
  void ledger(const double* u, const double* x, network::Ledger& books) const {
    const double drop = u[0] - u[1] - x[0];
    books.lost_w += drop * drop / esr_ohm + leak_s * x[0] * x[0];
  }
  [[nodiscard]] double stored(const double* x) const { return 0.5 * capacitance_f * x[0] * x[0]; }
};

}  // namespace tideover::part

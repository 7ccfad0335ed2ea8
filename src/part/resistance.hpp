/// Plain resistance between two terminals: contacts, leads, tracks, bleeders.
#pragma once

#include "network/law.hpp"

namespace tideover::part {

/// Ohm's law. An open is `open_conductance_s`, stated rather than zero so that every node keeps a
/// potential; a closed contact is never below `least_resistance_ohm`.
inline constexpr double open_conductance_s = 1e-9;
inline constexpr double least_resistance_ohm = 1e-5;

struct Resistance {
  static constexpr int ports = 2;
  static constexpr int states = 0;
  double conductance_s = open_conductance_s;

  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    flow[0] = conductance_s * (u[0] - u[1]);
    flow[1] = -flow[0];
  }
  void ledger(const double* u, const double*, network::Ledger& books) const {
    const double v = u[0] - u[1];
    books.lost_w += conductance_s * v * v;
  }
};

/// The same with its heat going into a thermal node (port 2).
struct WarmResistance {
  static constexpr int ports = 3;
  static constexpr int states = 0;
  double conductance_s = open_conductance_s;

  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    const Real v = u[0] - u[1];
    flow[0] = conductance_s * v;
    flow[1] = -flow[0];
    flow[2] = -(flow[0] * v);
  }
  void ledger(const double* u, const double*, network::Ledger& books) const {
    const double v = u[0] - u[1];
    books.lost_w += conductance_s * v * v;
  }
};

}  // namespace tideover::part

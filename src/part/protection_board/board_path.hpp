/// The laws of a protection board: its switched path and its own drain.
#pragma once

#include <cmath>

#include "network/law.hpp"
#include "numeric/dual.hpp"
#include "numeric/smooth.hpp"
#include "numeric/wright_omega.hpp"
#include "part/resistance.hpp"

namespace tideover::part {

/// Two MOSFETs back to back between p_minus and b_minus. Ports: p_minus, b_minus, body; a positive
/// current discharges the pack. With both on it is a resistance R. With the discharge one off, its
/// body diode still lets charging current through, and the other way round; the diode follows
///     v = i R + n VT ln(1 + i/Is)          (Shockley, in series with R)
/// solved for i with Wright's omega function. n VT = 30 mV stands for 25 degC and is held there: a
/// warm diode drops 2 mV less per kelvin (from memory). With both off nothing flows.
struct BoardPath {
  static constexpr int ports = 3;
  static constexpr int states = 0;
  static constexpr double slope_v = 0.030;  ///< n VT
  double on_ohm = 0.01;
  double saturation_a = 1.4e-11;
  double sense_s = 0.0;           ///< pulls p_minus to b_minus while discharge is cut
  unsigned discharge_blocks = 0;  ///< one bit for each reason that keeps the MOSFET off
  unsigned charge_blocks = 0;

  /// Saturation current of a diode that drops `drop_v` at 1 A, its series resistance apart.
  [[nodiscard]] static double saturation_for(double drop_v) {
    return 1.0 / std::expm1(drop_v / slope_v);
  }

  template <class Real>
  [[nodiscard]] Real diode_a(const Real& v) const {
    const double log_share = std::log(saturation_a * on_ohm / slope_v);
    const Real x = (v + saturation_a * on_ohm) * (1.0 / slope_v) + log_share;
    return numeric::wright_omega(x) * (slope_v / on_ohm) - saturation_a;
  }
  /// Current [A] at v = u(p_minus) - u(b_minus).
  template <class Real>
  [[nodiscard]] Real current_a(const Real& v) const {
    if (discharge_blocks == 0 && charge_blocks == 0) return v * (1.0 / on_ohm);
    const double leak_s = open_conductance_s + (discharge_blocks != 0 ? sense_s : 0.0);
    Real i = v * leak_s;
    if (discharge_blocks == 0) i = i + diode_a(v);
    if (charge_blocks == 0) i = i - diode_a(Real(-v));
    return i;
  }

  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    const Real v = u[0] - u[1];
    flow[0] = current_a(v);
    flow[1] = -flow[0];
    flow[2] = -(flow[0] * v);
  }
  void ledger(const double* u, const double*, network::Ledger& books) const {
    const double v = u[0] - u[1];
    books.lost_w += v * current_a(v);
  }
};

/// What the board itself takes from the pack: constant above some volts, in proportion below. A
/// draw that were constant both ways would leave Newton's iteration no way back from far off where
/// nothing else holds b_plus.
struct BoardDrain {
  static constexpr int ports = 2;
  static constexpr int states = 0;
  static constexpr double fades_v = 1.0;
  double drain_a = 20e-6;

  template <class Real>
  [[nodiscard]] Real current_a(const Real& v) const {
    return drain_a * v / numeric::smooth_max(v, Real(fades_v), 0.1 * fades_v);
  }
  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    flow[0] = current_a(Real(u[0] - u[1]));
    flow[1] = -flow[0];
  }
  void ledger(const double* u, const double*, network::Ledger& books) const {
    const double v = u[0] - u[1];
    books.lost_w += v * current_a(v);
  }
};

}  // namespace tideover::part

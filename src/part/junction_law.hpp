/// The law of a semiconductor junction: diodes, and the body diodes of MOSFETs.
///
///     i = Is (exp((v - i Rs) / (n VT)) - 1) + G v,      VT = k T / q          (Shockley)
///     Is(T) = Is(T0) (T/T0)^(X/n) exp(-(q Eg / (n k)) (1/T - 1/T0))
/// solved for i with Wright's omega function,
///     i = (n VT / Rs) omega(ln(Is Rs / (n VT)) + (v + Is Rs) / (n VT)) - Is + G v,
/// which is monotone and cannot overflow. G is the leakage of the datasheet, taken as a conductance
/// that grows exponentially with temperature.
/// Sources: Sze, Physics of Semiconductor Devices, ch. 2 and 3 (from memory); CODATA 2018 k and q,
/// exact by definition.
#pragma once

#include <cmath>

#include "network/law.hpp"
#include "numeric/smooth.hpp"
#include "numeric/wright_omega.hpp"

namespace tideover::part {

/// k/q in volts per kelvin.
inline constexpr double boltzmann_over_charge_v_per_k = 1.380649e-23 / 1.602176634e-19;

/// Ports: anode, cathode, thermal node at junction temperature. No state. `in_series` equal
/// junctions share the voltage. The temperature law holds from 200 K to 450 K and stays constant
/// beyond, so that no guess of the solver makes it overflow.
struct Junction {
  static constexpr int ports = 3;
  static constexpr int states = 0;
  double saturation_a = 7e-9;    ///< Is at reference_k
  double ideality = 1.8;         ///< n
  double series_ohm = 0.03;      ///< Rs > 0
  double bandgap_v = 1.12;       ///< Eg: the gap of silicon, or the barrier of a Schottky contact
  double exponent = 3.0;         ///< X: 3 for a pn junction, 2 for a Schottky contact
  double reference_k = 298.15;   ///< T0
  double leak_s = 1e-9;          ///< G at T0
  double leak_doubles_k = 12.0;  ///< G doubles over this rise
  double in_series = 1.0;

  template <class Real>
  [[nodiscard]] Real current(const Real& v, const Real& temperature_k) const {
    using namespace numeric;
    const Real t = smooth_max(smooth_min(temperature_k, Real(450.0), 10.0), Real(200.0), 10.0);
    const Real n_vt = (ideality * boltzmann_over_charge_v_per_k) * t;
    const Real one = v * (1.0 / in_series);
    const Real log_is =
        std::log(saturation_a) + (exponent / ideality) * logarithm(Real(t * (1.0 / reference_k))) +
        (bandgap_v / (ideality * boltzmann_over_charge_v_per_k)) * (1.0 / reference_k - 1.0 / t);
    const Real is = exponential(log_is);
    const Real x = log_is + logarithm(Real(series_ohm / n_vt)) + (one + is * series_ohm) / n_vt;
    const Real leak =
        leak_s * exponential(Real((t - reference_k) * (std::log(2.0) / leak_doubles_k)));
    return n_vt * (1.0 / series_ohm) * wright_omega(x) - is + leak * one;
  }

  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    const Real v = u[0] - u[1];
    flow[0] = current(v, u[2]);
    flow[1] = -flow[0];
    flow[2] = -(flow[0] * v);
  }
  void ledger(const double* u, const double*, network::Ledger& books) const {
    const double v = u[0] - u[1];
    books.lost_w += v * current(v, u[2]);
  }
};

}  // namespace tideover::part

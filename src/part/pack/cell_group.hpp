/// A group of parallel cells: voltage, charge and heat.
///
///     u0 - u1 = E(z1) + G/2 h + sum v_k + i R f + i R_link      i into plus: charging is positive
///     Q z'    = i - side - Q leak                                side = (1 - eta) max(i, 0)
///     h'      = (i - |i| h) / (turn Q)                           branch, -1 to 1
///     v_k'    = (i r_k - v_k/f) / tau_k                          f = rho(z1) exp(B (1/T -
///     1/298.15)) d'      = (i - side)/(c Q) - kappa d - leak_1 + leak_2     z1 = z + (1-c) d, z2 =
///     z - c d
/// with z the charge over the capacity Q, E the rest voltage, G the gap between the branches, and
/// the two wells of rate_wells.hpp where they are wanted (else c = 1 and z1 = z). Self-discharge
/// takes leak = lambda(T) z of each well, doubling every so many kelvin.
/// Sources: equivalent circuit and one-state branch as in Plett, Battery Management Systems I,
/// 2015, ch. 2; Arrhenius' law for the resistances (all from memory). Stored is the integral of the
/// rest voltage over charge, that of the RC capacitances and G/2 turn Q h^2/2; the rest is lost, is
/// never negative and warms the cell. Heat of entropy is left out: a few percent at low rates.
#pragma once

#include <array>
#include <memory>

#include "network/law.hpp"
#include "numeric/smooth.hpp"
#include "part/pack/cell_curves.hpp"

namespace tideover::part {

/// Ports: plus, minus, body. States: charge z, branch h, RC voltages, then d with Wells.
template <int Pairs, bool Wells>
struct CellGroup {
  static constexpr int ports = 3;
  static constexpr int states = 2 + Pairs + (Wells ? 1 : 0);
  struct RcPair {
    double r_ohm = 0.0;
    double time_s = 1.0;
  };

  std::shared_ptr<const CellCurves> curves;
  double capacity_c = 3600.0;
  double r_ohm = 0.01;  ///< at half charge and 25 degC
  double link_ohm = 0.0;
  double arrhenius_k = 0.0;  ///< B
  std::array<RcPair, static_cast<std::size_t>(Pairs)> pairs{};
  double gap_v = 0.0;  ///< G
  double turn_share = 0.03;
  double side_share = 0.0;   ///< 1 - eta
  double leak_per_s = 0.0;   ///< lambda at 25 degC
  double leak_per_k = 0.0;   ///< ln 2 over the kelvin that double it
  double near_share = 1.0;   ///< c
  double level_per_s = 0.0;  ///< kappa

  /// What both the equations and the books are made of.
  template <class Real>
  struct Instant {
    Real current_a;
    Real size_a;  ///< |i|
    Real factor;  ///< f
    Real side_a;
    Real near_leak;  ///< 1/s
    Real far_leak;
    Real lost_w;
  };

  template <class Real>
  void equations(const Real* u, const Real* x, Real* flow, Real* rate) const {
    const Instant<Real> now = at(u, x);
    flow[0] = now.current_a;
    flow[1] = -now.current_a;
    flow[2] = -now.lost_w;
    const Real gain = (now.current_a - now.side_a) * (1.0 / capacity_c);
    rate[0] = gain - near_share * now.near_leak;
    if constexpr (Wells) {
      rate[0] = rate[0] - (1.0 - near_share) * now.far_leak;
      rate[2 + Pairs] =
          gain * (1.0 / near_share) - level_per_s * x[2 + Pairs] - now.near_leak + now.far_leak;
    }
    rate[1] = (now.current_a - now.size_a * x[1]) * (1.0 / (turn_share * capacity_c));
    for (std::size_t k = 0; k < Pairs; ++k) {
      rate[2 + k] = (now.current_a * pairs[k].r_ohm - x[2 + k] / now.factor) / pairs[k].time_s;
    }
  }

  void ledger(const double* u, const double* x, network::Ledger& books) const {
    books.lost_w += at(u, x).lost_w;
  }
  [[nodiscard]] double stored(const double* x) const {
    double sum = 0.25 * gap_v * turn_share * capacity_c * x[1] * x[1];
    sum += capacity_c * near_share * curves->rest_v.integral(near_level(x));
    if constexpr (Wells) {
      sum += capacity_c * (1.0 - near_share) * curves->rest_v.integral(far_level(x));
    }
    for (std::size_t k = 0; k < Pairs; ++k) {
      sum += 0.5 * pairs[k].time_s / pairs[k].r_ohm * x[2 + k] * x[2 + k];
    }
    return sum;
  }

  /// Current into plus [A].
  [[nodiscard]] double current_a(const double* u, const double* x) const {
    return at(u, x).current_a;
  }
  /// Energy above that of the empty group [J].
  [[nodiscard]] double energy_left_j(const double* x) const {
    const std::array<double, static_cast<std::size_t>(states)> empty{};
    return stored(x) - stored(empty.data());
  }

 private:
  /// |i| is rounded, and self-discharge of an empty well dies out, over these widths: too small to
  /// be seen in any result (1e-4 of the 1 h current; 1 % of charge).
  [[nodiscard]] double rounding_a() const { return 1e-4 * capacity_c / 3600.0; }
  static constexpr double rounding_soc = 0.01;
  static constexpr double reference_k = 298.15;  ///< 25 degC
  /// Far colder than any pack: what Newton's iteration tries there must not divide by nothing.
  static constexpr double coldest_k = 100.0;

  template <class Real>
  [[nodiscard]] Real near_level(const Real* x) const {
    if constexpr (Wells) return x[0] + (1.0 - near_share) * x[2 + Pairs];
    return x[0];
  }
  template <class Real>
  [[nodiscard]] Real far_level(const Real* x) const {
    if constexpr (Wells) return x[0] - near_share * x[2 + Pairs];
    return x[0];
  }

  template <class Real>
  [[nodiscard]] Instant<Real> at(const Real* u, const Real* x) const {
    const Real near = near_level(x);
    const Real rest_v = curves->rest_v(near);
    Instant<Real> now{};
    const Real held_k = numeric::smooth_max(u[2], Real(coldest_k), 0.5 * coldest_k);
    now.factor = curves->resistance_ratio(near) *
                 numeric::exponential(Real(arrhenius_k / held_k - arrhenius_k / reference_k));
    Real over_v = u[0] - u[1] - rest_v - 0.5 * gap_v * x[1];
    for (std::size_t k = 0; k < Pairs; ++k) over_v = over_v - x[2 + k];
    now.current_a = over_v / (r_ohm * now.factor + link_ohm);
    now.size_a =
        numeric::square_root(Real(now.current_a * now.current_a + rounding_a() * rounding_a()));
    // max(i, 0), rounded so that it is never negative and nothing at rest.
    const Real way = now.current_a / now.size_a;
    now.side_a = (0.5 * side_share) * (now.current_a * way * (1.0 + way));
    const Real leak = leak_per_s * numeric::exponential(Real(leak_per_k * (u[2] - reference_k)));
    now.near_leak = leak * numeric::smooth_positive(near, rounding_soc);
    now.lost_w = over_v * now.current_a + 0.5 * gap_v * now.size_a * x[1] * x[1] +
                 rest_v * (now.side_a + capacity_c * near_share * now.near_leak);
    for (std::size_t k = 0; k < Pairs; ++k) {
      now.lost_w = now.lost_w + x[2 + k] * x[2 + k] / (pairs[k].r_ohm * now.factor);
    }
    if constexpr (Wells) add_far_well(x, rest_v, leak, now);
    return now;
  }

  template <class Real>
  void add_far_well(const Real* x, const Real& near_v, const Real& leak, Instant<Real>& now) const {
    const Real far = far_level(x);
    const Real far_v = curves->rest_v(far);
    now.far_leak = leak * numeric::smooth_positive(far, rounding_soc);
    now.lost_w = now.lost_w + capacity_c * (1.0 - near_share) *
                                  (far_v * now.far_leak +
                                   level_per_s * near_share * x[2 + Pairs] * (near_v - far_v));
  }
};

}  // namespace tideover::part

/// Warm air rising out of a box through openings at different heights.
#pragma once

#include "network/law.hpp"
#include "quantity/units.hpp"

namespace tideover::part {

/// Ports: box air, ambient; thermal [K]. The flow is Cd A sqrt(2 g H |d| / T) with T the mean of
/// both and 1/A^2 = 1/low^2 + 1/high^2 (two equal openings: their area over the square root of
/// two); it carries rho cp d. |d| is rounded to sqrt(d^2 + (0.05 K)^2). Small openings move almost
/// nothing. Source: the stack effect as in CIBSE and ASHRAE handbooks (from memory).
struct VentDraught {
  static constexpr int ports = 2;
  static constexpr int states = 0;
  double area_m2 = 0.0;  ///< Cd A
  double apart_m = 0.0;  ///< middle of the low opening to the middle of the high one
  double air_heat_j_per_m3_k = 0.0;

  template <class Real>
  [[nodiscard]] Real airflow_m3_per_s(const Real* u) const {
    constexpr double gravity_m_per_s2 = 9.80665;
    constexpr double corner_k = 0.05;
    const Real d = u[0] - u[1];
    const Real size = numeric::square_root(Real(d * d + corner_k * corner_k));
    const Real mean = 0.5 * (u[0] + u[1]);
    return area_m2 *
           numeric::square_root(Real(2.0 * gravity_m_per_s2 * apart_m * size / mean + 1e-12));
  }
  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    flow[0] = air_heat_j_per_m3_k * airflow_m3_per_s(u) * (u[0] - u[1]);
    flow[1] = -flow[0];
  }
  void ledger(const double*, const double*, network::Ledger&) const {}
};

/// Effective area of two openings in series.
[[nodiscard]] quantity::SquareMetre openings_in_series(quantity::SquareMetre low,
                                                       quantity::SquareMetre high);

}  // namespace tideover::part

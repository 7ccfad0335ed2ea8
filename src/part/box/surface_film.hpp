/// Heat from air to the walls of a box, or from the walls to the air around it.
#pragma once

#include "network/law.hpp"
#include "part/box/natural_convection.hpp"

namespace tideover::part {

/// Ports: the warmer side by habit, the cooler one; both thermal [K], any sign of the difference.
///
///     q = (sides Us(d) + top Ut(d) + bottom Ub(d)) d + e sigma A (T0^4 - T1^4),  1/U = 1/h(d) + r
///
/// with Churchill and Chu on the vertical sides, 0.54 and 0.27 Ra^(1/4) on top and bottom, and the
/// conduction r of the wall in series. |d| is rounded to sqrt(d^2 + (0.05 K)^2), so the flow is
/// smooth through zero. The air properties are taken at one film temperature; between 10 and 60
/// degC that moves the film by less than 3 %.
struct SurfaceFilm {
  static constexpr int ports = 2;
  static constexpr int states = 0;
  double side_area_m2 = 0.0;
  double side_still = 0.0;  ///< 0.825 sqrt(k / L), so that h = (still + rising s^(1/6))^2
  double side_rising = 0.0;
  double top_area_m2 = 0.0;
  double top_rising = 0.0;  ///< h = rising s^(1/4)
  double bottom_area_m2 = 0.0;
  double bottom_rising = 0.0;
  double radiating_w_per_k4 = 0.0;  ///< emissivity, Stefan-Boltzmann constant and area
  double wall_m2_k_per_w = 0.0;

  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    const Real d = u[0] - u[1];
    constexpr double corner_k = 0.05;
    const Real s = numeric::square_root(Real(d * d + corner_k * corner_k));
    const Real quarter = numeric::power(s, 0.25);
    const Real root = side_still + side_rising * numeric::power(s, 1.0 / 6.0);
    const Real films = side_area_m2 * through_wall(Real(root * root)) +
                       top_area_m2 * through_wall(Real(top_rising * quarter)) +
                       bottom_area_m2 * through_wall(Real(bottom_rising * quarter));
    const Real squares = u[0] * u[0] + u[1] * u[1];
    flow[0] = d * (films + radiating_w_per_k4 * squares * (u[0] + u[1]));
    flow[1] = -flow[0];
  }
  void ledger(const double*, const double*, network::Ledger&) const {}

 private:
  template <class Real>
  [[nodiscard]] Real through_wall(const Real& film) const {
    return film / (1.0 + wall_m2_k_per_w * film);
  }
};

/// A box as its films see it.
struct BoxSurface {
  quantity::SquareMetre sides{};
  quantity::SquareMetre top{};
  quantity::SquareMetre bottom{};
  quantity::Metre height{};             ///< of the sides
  quantity::Metre horizontal_length{};  ///< area of top or bottom over its perimeter
  double emissivity = 0.9;
  double wall_m2_k_per_w = 0.0;  ///< thickness over conductivity; 0 for the film that has none
};
/// The law of such a surface, with air properties at `film`. The top loses heat as a plate facing
/// up outside and as a ceiling under hot air inside, which is the same correlation; so does the
/// bottom.
[[nodiscard]] SurfaceFilm film_of(const BoxSurface& surface, quantity::Temperature film);

}  // namespace tideover::part

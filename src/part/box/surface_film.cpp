#include "part/box/surface_film.hpp"

#include <cmath>

namespace tideover::part {

using quantity::Kelvin;
using quantity::Metre;
using quantity::Temperature;

namespace {

/// h = factor s^(1/4) of a horizontal plate, s in kelvin.
double horizontal_rising(const AirProperties& air, Facing facing, Metre length) {
  const double per_kelvin = rayleigh_number(air, Kelvin::of_si(1.0), length);
  const double nusselt = horizontal_plate_factor(facing) * std::pow(per_kelvin, 0.25);
  return film_coefficient(nusselt, air, length).si();
}

}  // namespace

SurfaceFilm film_of(const BoxSurface& surface, Temperature film) {
  const AirProperties air = air_at(film);
  const double k_over_l = air.conductivity_w_per_m_k / surface.height.si();
  const double per_kelvin = rayleigh_number(air, Kelvin::of_si(1.0), surface.height);
  const double area = (surface.sides + surface.top + surface.bottom).si();
  return {.side_area_m2 = surface.sides.si(),
          .side_still = 0.825 * std::sqrt(k_over_l),
          .side_rising = vertical_plate_factor(air.prandtl) * std::pow(per_kelvin, 1.0 / 6.0) *
                         std::sqrt(k_over_l),
          .top_area_m2 = surface.top.si(),
          .top_rising = horizontal_rising(air, Facing::Up, surface.horizontal_length),
          .bottom_area_m2 = surface.bottom.si(),
          .bottom_rising = horizontal_rising(air, Facing::Down, surface.horizontal_length),
          .radiating_w_per_k4 = surface.emissivity * stefan_boltzmann_w_per_m2_k4 * area,
          .wall_m2_k_per_w = surface.wall_m2_k_per_w};
}

}  // namespace tideover::part

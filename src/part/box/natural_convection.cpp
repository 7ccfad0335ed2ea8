#include "part/box/natural_convection.hpp"

#include <cmath>

namespace tideover::part {

using quantity::Kelvin;
using quantity::Metre;
using quantity::Temperature;

double rayleigh_number(const AirProperties& air, Kelvin difference, Metre length) {
  constexpr double gravity_m_per_s2 = 9.80665;
  const double diffusivity = air.viscosity_m2_per_s / air.prandtl;
  return gravity_m_per_s2 * air.expansion_per_k * difference.si() * std::pow(length.si(), 3.0) /
         (air.viscosity_m2_per_s * diffusivity);
}

double vertical_plate_factor(double prandtl) {
  return 0.387 / std::pow(1.0 + std::pow(0.492 / prandtl, 9.0 / 16.0), 8.0 / 27.0);
}

double vertical_plate_nusselt(double rayleigh, double prandtl) {
  const double root = 0.825 + vertical_plate_factor(prandtl) * std::pow(rayleigh, 1.0 / 6.0);
  return root * root;
}

double horizontal_plate_factor(Facing facing) { return facing == Facing::Up ? 0.54 : 0.27; }

WattPerSquareMetreKelvin film_coefficient(double nusselt, const AirProperties& air, Metre length) {
  return WattPerSquareMetreKelvin::of_si(nusselt * air.conductivity_w_per_m_k / length.si());
}

WattPerSquareMetreKelvin radiation_coefficient(double emissivity, Temperature surface,
                                               Temperature surroundings) {
  const double a = surface.si();
  const double b = surroundings.si();
  return WattPerSquareMetreKelvin::of_si(emissivity * stefan_boltzmann_w_per_m2_k4 *
                                         (a * a + b * b) * (a + b));
}

}  // namespace tideover::part

#include "part/air_properties.hpp"

#include <cmath>

#include "base/contract.hpp"

namespace tideover::part {

using quantity::CubicMetrePerSecond;
using quantity::Kelvin;
using quantity::Temperature;
using quantity::Watt;

namespace {

double sutherland(double at_zero_celsius, double constant_k, double temperature_k) {
  constexpr double zero_k = Temperature::zero_celsius_k;
  return at_zero_celsius * std::pow(temperature_k / zero_k, 1.5) * (zero_k + constant_k) /
         (temperature_k + constant_k);
}

double density(double temperature_k) { return 101325.0 / (287.05 * temperature_k); }

}  // namespace

AirProperties air_at(Temperature film) {
  const double t_k = film.si();
  TIDEOVER_EXPECT(t_k > 200.0 && t_k < 600.0, "the fit of air ends here");
  const double dynamic_pa_s = sutherland(1.716e-5, 110.4, t_k);
  const double conductivity = sutherland(0.0241, 194.0, t_k);
  return {.density_kg_per_m3 = density(t_k),
          .conductivity_w_per_m_k = conductivity,
          .viscosity_m2_per_s = dynamic_pa_s / density(t_k),
          .prandtl = dynamic_pa_s * air_heat_j_per_kg_k / conductivity,
          .expansion_per_k = 1.0 / t_k};
}

double air_heat_per_volume(Temperature air) { return density(air.si()) * air_heat_j_per_kg_k; }

CubicMetrePerSecond airflow_for(Watt heat, Kelvin rise, Temperature entering) {
  TIDEOVER_EXPECT(rise.si() > 0.0, "air that carries heat away gets warmer");
  return CubicMetrePerSecond::of_si(heat.si() / (air_heat_per_volume(entering) * rise.si()));
}

}  // namespace tideover::part

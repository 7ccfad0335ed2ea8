/// Dry air at one atmosphere.
#pragma once

#include "quantity/units.hpp"

namespace tideover::part {

/// At a film temperature; SI units.
struct AirProperties {
  double density_kg_per_m3;
  double conductivity_w_per_m_k;
  double viscosity_m2_per_s;  ///< kinematic
  double prandtl;
  double expansion_per_k;  ///< 1 / T: an ideal gas
};

/// Heat capacity at constant pressure, 1006 J/(kg K) within 0.3 % from 0 to 100 degC.
inline constexpr double air_heat_j_per_kg_k = 1006.0;

/// Ideal gas (287.05 J/(kg K), 101 325 Pa); viscosity and conductivity by Sutherland's formula:
/// 17.16 uPa s and 24.1 mW/(m K) at 0 degC, constants 110.4 K and 194 K. Within 1 % of handbook
/// tables from 0 to 150 degC. Source: White, Viscous Fluid Flow (from memory). Valid 200 to 600 K.
[[nodiscard]] AirProperties air_at(quantity::Temperature film);

/// Heat that one cubic metre of air takes up per kelvin [J/(m3 K)] at that temperature.
[[nodiscard]] double air_heat_per_volume(quantity::Temperature air);

/// The flow that carries `heat` away with the air warming by `rise`: P / (rho cp rise), the air
/// being measured where it enters. rise > 0.
[[nodiscard]] quantity::CubicMetrePerSecond airflow_for(quantity::Watt heat, quantity::Kelvin rise,
                                                        quantity::Temperature entering);

}  // namespace tideover::part

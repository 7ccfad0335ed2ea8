/// How fast still air takes heat from a surface.
#pragma once

#include "part/air_properties.hpp"
#include "quantity/units.hpp"

namespace tideover::part {

/// W/(m2 K).
using WattPerSquareMetreKelvin = decltype(quantity::Watt{} / quantity::SquareMetre{} /
                                          quantity::Kelvin{});

enum class Facing { Up, Down };

/// g beta dT L^3 / (nu alpha) for a surface of characteristic length L, `difference` >= 0.
[[nodiscard]] double rayleigh_number(const AirProperties& air, quantity::Kelvin difference,
                                     quantity::Metre length);

/// Churchill and Chu's Nusselt number of a vertical plate, any Rayleigh number up to 1e12:
/// {0.825 + 0.387 Ra^(1/6) / [1 + (0.492 / Pr)^(9/16)]^(8/27)}^2.
/// Source: Incropera, Fundamentals of Heat and Mass Transfer, eq. 9.26 (from memory).
[[nodiscard]] double vertical_plate_nusselt(double rayleigh, double prandtl);
/// The factor of Ra^(1/6) in it.
[[nodiscard]] double vertical_plate_factor(double prandtl);

/// Nusselt number of a hot horizontal plate with L = area over perimeter: 0.54 Ra^(1/4) facing up,
/// 0.27 Ra^(1/4) facing down; a cold plate the other way round. Source: Incropera, eqs. 9.30 and
/// 9.32 (from memory), for Ra of 1e4 to 1e7 and 1e5 to 1e10; newer editions print 0.52 Ra^(1/5)
/// facing down, a tenth more.
[[nodiscard]] double horizontal_plate_factor(Facing facing);

/// Nusselt number to film coefficient: Nu k / L.
[[nodiscard]] WattPerSquareMetreKelvin film_coefficient(double nusselt, const AirProperties& air,
                                                        quantity::Metre length);

inline constexpr double stefan_boltzmann_w_per_m2_k4 = 5.670374419e-8;  // CODATA 2018

/// Radiation between a small warm surface and surroundings, as a film coefficient:
/// e sigma (T1^2 + T0^2)(T1 + T0).
[[nodiscard]] WattPerSquareMetreKelvin radiation_coefficient(double emissivity,
                                                             quantity::Temperature surface,
                                                             quantity::Temperature surroundings);

}  // namespace tideover::part

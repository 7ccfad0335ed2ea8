/// What temperature does to a copper winding.
/// Source: IEC 60034-1, 8.6.2, and IEC 61810-1: 234.5 for copper (from memory).
#pragma once

#include "quantity/units.hpp"

namespace tideover::part {

/// Copper's resistance, drawn as a line, reaches zero at -234.5 degC, in kelvin.
inline constexpr double copper_zero_k = quantity::Temperature::zero_celsius_k - 234.5;

/// R(T)/R(T0) = (234.5 + T) / (234.5 + T0) with T, T0 in degrees Celsius; both given in kelvin.
/// The current a coil needs to pull its armature stays; so the voltage it needs goes the same way.
template <class Real>
[[nodiscard]] Real copper_ratio(const Real& temperature_k, double reference_k) {
  return (temperature_k - copper_zero_k) * (1.0 / (reference_k - copper_zero_k));
}

/// Mean temperature rise of a winding over the air around it at the end, from its resistance
/// before (cold, at `air_before`) and after:
///     (R2 - R1) / R1 (234.5 + t1) - (t2 - t1)
[[nodiscard]] inline quantity::Kelvin rise_by_resistance(quantity::Ohm before, quantity::Ohm after,
                                                         quantity::Temperature air_before,
                                                         quantity::Temperature air_after) {
  const double share = ((after - before) / before).si();
  return quantity::Kelvin::of_si(share * (air_before.si() - copper_zero_k)) -
         (air_after - air_before);
}

}  // namespace tideover::part

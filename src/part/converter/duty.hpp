/// Duty and gain of switching converters in continuous conduction, averaged over a period.
/// Source: volt-second balance of the inductor, as in Erickson and Maksimovic, Fundamentals of
/// Power Electronics, ch. 2 and 3 (from memory).
#pragma once

#include "quantity/units.hpp"

namespace tideover::part {

/// Share of a period for which a step-down converter's switch is on; above 1 it drops out.
[[nodiscard]] constexpr double step_down_duty(quantity::Volt out, quantity::Volt in,
                                              double efficiency = 1.0) {
  return out.si() / (in.si() * efficiency);
}
/// The same from the drops of its rectifier and of its switch.
[[nodiscard]] constexpr double step_down_duty(quantity::Volt out, quantity::Volt in,
                                              quantity::Volt rectifier_drop,
                                              quantity::Volt switch_drop) {
  return (out + rectifier_drop).si() / (in - switch_drop + rectifier_drop).si();
}
[[nodiscard]] constexpr double step_up_duty(quantity::Volt out, quantity::Volt in,
                                            double efficiency = 1.0) {
  return 1.0 - efficiency * in.si() / out.si();
}
/// Output over input voltage of a lossless step-up converter, duty below 1.
[[nodiscard]] constexpr double step_up_gain(double duty) { return 1.0 / (1.0 - duty); }
/// The same of one that steps up or down.
[[nodiscard]] constexpr double step_up_down_gain(double duty) { return duty / (1.0 - duty); }

}  // namespace tideover::part

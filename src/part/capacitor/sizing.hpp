/// How large a capacitor must be, in closed form, and which ones there are to buy.
#pragma once

#include "quantity/units.hpp"

namespace tideover::part {

/// What holds a load of constant power up for a time: C = 2 P t / (V1^2 - V2^2), from the energy
/// between the two voltages. V1 is the voltage after the step across the series resistance, V2 the
/// lowest at which the load still works; 0 <= V2 < V1. Source: energy balance of hold-up capacitors
/// as given by public application notes (read): 100 W for 20 ms from 400 V to 300 V, 57.1 uF.
[[nodiscard]] quantity::Farad hold_up_capacitance(quantity::Watt power, quantity::Second time,
                                                  quantity::Volt from, quantity::Volt to);

/// The same solved for the time.
[[nodiscard]] quantity::Second hold_up_time(quantity::Watt power, quantity::Farad capacitance,
                                            quantity::Volt from, quantity::Volt to);

/// The lowest usual rated voltage of electrolytic capacitors under which `highest` is four fifths
/// at most: 6.3 V, 10 V, 16 V, 25 V, 35 V, 50 V, 63 V, 80 V or 100 V (the R5 steps of IEC 60063 and
/// those that makers added, from memory); the reserve is common practice, no source. At most 80 V.
[[nodiscard]] quantity::Volt rated_voltage_above(quantity::Volt highest);

/// Series resistance to expect of an electrolytic capacitor: 50 us over its capacitance (0.05 Ohm
/// of 1000 uF), between 2 mOhm and 2 Ohm. Typical, from memory.
[[nodiscard]] quantity::Ohm usual_esr(quantity::Farad capacitance);

}  // namespace tideover::part

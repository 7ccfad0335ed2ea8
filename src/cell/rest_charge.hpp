/// What a voltage at rest says of the charge left: the class's rest curve read backwards.
///
/// Midway between the branches, which is where a cell that has lain for weeks comes near to. On the
/// flat of an iron phosphate cell a few millivolts are a third of the charge: the error says so.
#pragma once

#include "part/pack/cell.hpp"
#include "quantity/units.hpp"

namespace tideover::cell {

/// Share of charge at a rest voltage; 0 below the curve, 1 above it.
[[nodiscard]] quantity::Ratio charge_at_rest(const part::Cell& kind, quantity::Volt voltage);

/// Rest voltage at a share of charge from 0 to 1.
[[nodiscard]] quantity::Volt rest_voltage_at(const part::Cell& kind, quantity::Ratio charge);

/// Standard error of charge_at_rest() for a voltage known to within `within` either way, all
/// values between being as likely. GUM (JCGM 100:2008), 4.3.7: half the width over root three.
[[nodiscard]] quantity::Ratio charge_error(const part::Cell& kind, quantity::Volt voltage,
                                           quantity::Volt within);

}  // namespace tideover::cell

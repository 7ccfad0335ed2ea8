/// Preferred numbers of resistors and capacitors.
#pragma once

#include <span>

#include "quantity/units.hpp"

namespace tideover::part {

/// Series of IEC 60063; the number is how many values stand in a decade.
enum class Series { E6 = 6, E12 = 12, E24 = 24, E96 = 96 };

/// The values of one decade in rising order, as printed: 10 to 68, 10 to 82, 10 to 91, 100 to 976.
/// E6, every second value of E12, is that of parts of 20 %, most electrolytic capacitors; E12 and
/// E24 are a list of their own (eight values of E24 differ from the rounded power of ten, 4.3
/// and 8.2 among them); E96 is round(100 x 10^(n/96)). Source: IEC 60063 as restated by
/// qsl.net/g4usp (read).
[[nodiscard]] std::span<const int> decade_of(Series series);

/// The value of the series nearest to `wanted` > 0 by ratio.
[[nodiscard]] quantity::Ohm nearest_preferred(quantity::Ohm wanted, Series series);

/// The smallest value of the series that is at least `wanted` > 0, to a millionth.
[[nodiscard]] quantity::Farad preferred_at_least(quantity::Farad wanted, Series series);

}  // namespace tideover::part

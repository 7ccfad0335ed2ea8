/// American wire gauge.
/// Source: ASTM B258 (from memory); its diameters as printed at
/// hyperphysics.phy-astr.gsu.edu/hbase/tables/wirega.html (read).
#pragma once

#include <optional>

#include "quantity/units.hpp"

namespace tideover::part {

/// Gauges run from 4/0, written -3, to 40.
inline constexpr int thickest_gauge = -3;
inline constexpr int thinnest_gauge = 40;

/// d = 0.005 in x 92^((36 - n) / 39): fixed by 36 AWG = 0.0050 in and 4/0 = 0.4600 in.
[[nodiscard]] quantity::Metre gauge_diameter(int gauge);
[[nodiscard]] quantity::SquareMetre gauge_area(int gauge);
/// Diameter of the solid round wire of that area.
[[nodiscard]] quantity::Metre diameter_of(quantity::SquareMetre area);
/// The gauge whose area this is within 0.1 %, if it is one.
[[nodiscard]] std::optional<int> gauge_of(quantity::SquareMetre area);

}  // namespace tideover::part

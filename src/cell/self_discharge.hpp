/// Self-discharge of one cell from its voltages at rest on two days.
///
/// The two voltages are read as shares of charge on the class's rest curve; the charge falls by the
/// same share each day. Which temperature it lay at is not known: the figure is for that place.
#pragma once

#include <optional>

#include "cell/tested_cell.hpp"
#include "part/pack/cell.hpp"

namespace tideover::cell {

struct SelfDischarge {
  quantity::Ratio per_month;  ///< share of its charge lost in 30 days; below 0 if it seems to rise
  quantity::Ratio error;      ///< standard error of that
  quantity::Volt from;
  quantity::Volt to;
  quantity::Second over;
};

/// By how much a reading without a stated tolerance may be off against the other of the same
/// meter: the gain of a meter cancels in a difference, its last digit and its drift do not.
/// Assumed.
inline constexpr quantity::Volt assumed_reading_error = quantity::Volt::of_si(0.002);

/// Of the last dated voltage and the earliest one since which the cell was not charged. Nothing
/// where there are no two days at least a week apart, or where nothing was left in the cell: in
/// days after a charge the voltage settles, which is no self-discharge (common practice, no
/// source).
[[nodiscard]] std::optional<SelfDischarge> self_discharge_of(const TestedCell& tested,
                                                             const part::Cell& kind);

}  // namespace tideover::cell

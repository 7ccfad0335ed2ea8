/// What a tester's word for its state says about the direction of the current.
#pragma once

#include <optional>
#include <string_view>

namespace tideover::cell {

enum class Direction { Discharging = -1, Resting = 0, Charging = 1 };

/// "Chg", "CC charge", "C": charging; "DChg", "D", "discharging": discharging; "Rest", "pause",
/// "idle", "R": resting. Empty for any other word.
[[nodiscard]] std::optional<Direction> direction_of(std::string_view word);

}  // namespace tideover::cell

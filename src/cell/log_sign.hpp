/// Which way a file's positive current flows, told from how the voltage answers.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "cell/log_counter.hpp"

namespace tideover::cell {

/// 1: a positive current charges the cell; -1: it discharges it; 0: nothing can be said.
struct VoltageAnswer {
  int by_steps = 0;       ///< the voltage jumps with the current when it charges
  double step_ohm = 0.0;  ///< by how much, regressed over the steps; positive
  int by_trend = 0;       ///< the voltage climbs while it charges
  double trend_v = 0.0;   ///< climb under charge and fall under discharge together
};

[[nodiscard]] VoltageAnswer answer_of_voltage(std::span<const double> voltage_v,
                                              const CurrentOverTime& seen);

/// What a comment says, such as `# sign: current positive = cell DELIVERS (discharge)`: 1, -1, or
/// 0 if none speaks of it.
[[nodiscard]] int sign_of_comments(const std::vector<std::string>& comments);

/// Current without a sign that both charges and discharges: each stretch between rests gets the
/// sign that its voltage tells. False, and nothing changed, if all go one way or none can be told.
[[nodiscard]] bool sign_by_stretches(std::vector<double>& current_a,
                                     std::span<const double> voltage_v,
                                     const CurrentOverTime& seen);

}  // namespace tideover::cell

/// Units that no heading tells, found from the numbers.
#pragma once

#include <string>
#include <vector>

#include "cell/log.hpp"
#include "cell/log_counter.hpp"

namespace tideover::cell {

/// Columns whose unit is not said. They were read as s, V, A and A s.
struct UnsaidUnits {
  bool time = false;
  bool voltage = false;
  bool current = false;
  bool counter = false;
};

/// What the columns are multiplied by.
struct UnitScales {
  double time_factor = 1.0;
  double voltage_factor = 1.0;
  double current_factor = 1.0;
  double counter_factor = 1.0;
  std::vector<std::string> remarks;
};

/// A cell's voltage is volts or millivolts; counter, current and time must agree with each other:
/// one unit of the three can be found from the other two.
[[nodiscard]] UnitScales scales_of(const Log& log, const CurrentOverTime& seen,
                                   const UnsaidUnits& unsaid);

}  // namespace tideover::cell

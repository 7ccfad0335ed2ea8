/// One rising time of what the columns of time and date say.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "cell/log_rows.hpp"

namespace tideover::cell {

struct LogTime {
  std::vector<double> time_s;
  std::optional<std::int64_t> clock_of_zero_s;  ///< since 1970-01-01
  int midnights = 0;  ///< a clock without dates passed zero o'clock this often
};

/// Takes the column of time out of `log`. Date and time of day are added; a clock without a date
/// runs on over midnight; seconds since 1970 count from the first.
[[nodiscard]] LogTime take_time(RawLog& log, const RawRows& rows);

}  // namespace tideover::cell

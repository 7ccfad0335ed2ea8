/// Logs of cell testers and data loggers, read as they come.
///
/// Columns are found by heading and unit (log_headings.hpp); separators, decimal marks, comments
/// and clocks as log_fields.hpp, log_number.hpp and log_clock.hpp say. What the file leaves open,
/// above all the sign of the current, is found from the numbers and said in a remark.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "cell/log.hpp"

namespace tideover::cell {

/// Something found that the person should know of: what was taken for what, and why.
struct Remark {
  std::string cell;  ///< empty: of the whole file
  int line = 0;      ///< 0: of no line
  std::string text;  ///< one clause without full stop
};

struct LogReading {
  std::vector<Log> logs;  ///< one for each cell of the file, in order of appearance
  std::vector<Remark> remarks;
  /// Rows that could not be read, with file, line and column (the first twenty and a count); or why
  /// there is no log at all. The logs hold what could be read.
  base::Problems problems;
};

/// `file` is for messages and names the cell where no column does: the file's stem.
[[nodiscard]] LogReading read_log(std::string_view text, const std::string& file);

/// Largest file that is read [bytes].
inline constexpr std::uint64_t largest_log_bytes = 2'000'000'000;

[[nodiscard]] LogReading read_log_file(const std::filesystem::path& path);

}  // namespace tideover::cell

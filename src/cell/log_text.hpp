/// Where in a file the headings stand, what they say and how the file is written.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cell/log_fields.hpp"
#include "cell/log_headings.hpp"

namespace tideover::cell {

struct LogText {
  Dialect dialect;
  Headings headings;
  std::vector<std::string> comments;  ///< of the lines before the headings, without `#`
  int heading_line = 0;               ///< from 1
  int passed_over = 0;                ///< lines before the headings that are no comments
  std::size_t data_at = 0;            ///< first byte behind the headings and their units
  int data_line = 0;                  ///< its line
};

enum class Kind { Log, Table };

/// The first line that makes the headings of a log or a table, within the first 500; one behind
/// `#` if there is no other. Empty if there is none.
[[nodiscard]] std::optional<LogText> find_headings(std::string_view text, Kind kind);

/// The headings that `line` makes with `separator`.
[[nodiscard]] std::vector<Column> headings_in(std::string_view line, char separator);

}  // namespace tideover::cell

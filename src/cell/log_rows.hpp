/// The samples of a log as they stand in its text: numbers in SI units, nothing judged yet.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "cell/log_text.hpp"

namespace tideover::cell {

/// From sample `row` on, sample r stands in line `line` + r - `row`.
struct LineMark {
  std::size_t row = 0;
  int line = 0;
};

/// What the file tells of one cell.
struct RawLog {
  std::string cell;  ///< empty if no column names cells
  /// By role, time to ambient; empty where no column has the role. Not a number: no reading.
  std::array<std::vector<double>, static_cast<std::size_t>(Role::Ambient) + 1> columns_si;
  std::vector<std::uint32_t> label;         ///< index into `RawRows::words`; empty if no column
  std::vector<std::uint32_t> state;         ///< the same
  std::vector<std::size_t> headings_again;  ///< samples before which the headings stood again
  std::vector<LineMark> lines;

  [[nodiscard]] std::vector<double>& of(Role role) {
    return columns_si[static_cast<std::size_t>(role)];
  }
  [[nodiscard]] const std::vector<double>& of(Role role) const {
    return columns_si[static_cast<std::size_t>(role)];
  }
  [[nodiscard]] bool has(Role role) const { return !of(role).empty(); }
  [[nodiscard]] std::size_t size() const { return of(Role::Voltage).size(); }
  [[nodiscard]] int line_of(std::size_t row) const;
};

struct RawRows {
  std::vector<RawLog> logs;
  std::vector<std::string> words;    ///< of labels and states; a whole number counts as a word
  bool times_are_dated = false;      ///< then time counts from `clock_of_zero_s`
  bool times_are_clock = false;      ///< hours and minutes, with or without a date
  bool times_are_of_day = false;     ///< the column of times holds them without a date
  std::int64_t clock_of_zero_s = 0;  ///< since 1970-01-01
  int without_reading = 0;           ///< rows with no time, voltage or current
  int no_samples = 0;                ///< lines that are neither samples nor headings
  int first_no_sample = 0;           ///< the line of the first
  base::Problems problems;           ///< the first twenty
  int problem_count = 0;
};

/// Reads every line behind the headings. A row that cannot be read is a problem; the others stand.
[[nodiscard]] RawRows read_rows(std::string_view text, const LogText& found,
                                const std::string& file);

}  // namespace tideover::cell

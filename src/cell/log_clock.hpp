/// Times as loggers write them: `1:02:03.5`, `2d 04:05:06`, `2024-03-01T12:34:56.25+01:00`,
/// `01.03.2024 12:34`, `3/1/2024 1:02:03 PM`.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace tideover::cell {

/// Which of two small numbers of a date with slashes is the month.
enum class DateOrder { DayFirst, MonthFirst };

struct ClockTime {
  std::int64_t whole_s = 0;  ///< since 1970-01-01 if dated, else since zero o'clock or the start
  double fraction_s = 0.0;   ///< 0 to 1
  bool is_dated = false;
  bool has_time = false;         ///< more than a date
  bool month_must_lead = false;  ///< a date with slashes whose second number is above 12
};

/// ISO 8601 dates and times (UTC offsets are taken off; without one the logger's own clock is
/// meant), dates with points (day first) or slashes, h:min, h:min:s with decimals by point or
/// comma, days before them behind `d`, a blank, a point or a dash. Empty if it is none of these.
[[nodiscard]] std::optional<ClockTime> read_clock(std::string_view field, DateOrder order);

/// Days from 1970-01-01 in the proleptic Gregorian calendar; empty if there is no such day.
[[nodiscard]] std::optional<std::int64_t> days_since_1970(int year, int month, int day);

}  // namespace tideover::cell

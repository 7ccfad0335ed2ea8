#include "cell/log_clock.hpp"

#include <doctest/doctest.h>

using namespace tideover::cell;

namespace {

/// Seconds, not dated; minus one if it is no time.
double seconds(std::string_view text) {
  const auto clock = read_clock(text, DateOrder::DayFirst);
  if (!clock) return -1.0;
  return static_cast<double>(clock->whole_s) + clock->fraction_s;
}

}  // namespace

TEST_CASE("clock: hours, minutes, seconds, with days and decimals") {
  CHECK(seconds("0:00:00") == 0.0);
  CHECK(seconds("1:02:03") == 3723.0);
  CHECK(seconds("100:00:00.25") == 360000.25);
  CHECK(seconds("12:34") == 45240.0);
  CHECK(seconds("00:00:01,5") == 1.5);
  CHECK(seconds("2d 04:05:06") == 187506.0);
  CHECK(seconds("2 04:05:06") == 187506.0);
  CHECK(seconds("2.04:05:06") == 187506.0);
  CHECK(seconds("2-04:05:06") == 187506.0);
  CHECK(seconds("1 day, 0:00:01") == 86401.0);
  CHECK(seconds("1:02:03 PM") == 46923.0);
  CHECK(seconds("12:00:00 am") == 0.0);
}

TEST_CASE("clock: ISO 8601 and dates of the country") {
  // 2024-03-01 is day 19783: 54 years with 13 leap days, and 60 days of a leap year.
  const double day = 19783.0 * 86400.0;
  CHECK(seconds("2024-03-01") == day);
  CHECK(seconds("2024-03-01T12:34:56") == day + 45296.0);
  CHECK(seconds("2024-03-01 12:34:56.5") == day + 45296.5);
  CHECK(seconds("2024-03-01T12:34:56Z") == day + 45296.0);
  CHECK(seconds("2024-03-01T12:34:56+01:00") == day + 41696.0);
  CHECK(seconds("2024-03-01T12:34:56-0530") == day + 65096.0);
  CHECK(seconds("2024/03/01 00:00") == day);
  CHECK(seconds("01.03.2024 00:00:01") == day + 1.0);
  CHECK(seconds("1/3/2024 1:00 AM") == day + 3600.0);
  const auto american = read_clock("3/1/2024 1:00", DateOrder::MonthFirst);
  REQUIRE(american);
  CHECK(american->whole_s == 19783 * 86400 + 3600);
  const auto certain = read_clock("3/31/2024 1:00", DateOrder::DayFirst);
  REQUIRE(certain);
  CHECK(certain->month_must_lead);
}

TEST_CASE("clock: what is no time is none") {
  for (const char* text : {"", "12", "12:", ":12", "12:60", "1:2:99", "2024-13-01", "2024-02-30",
                           "2024-03-01T", "2024-03-01Tx", "1:00 xm", "13:00 pm", "a:b:c",
                           "1:00:00:00", "-1:00", "2024-03-01T00:00+99:00"}) {
    CAPTURE(text);
    CHECK(seconds(text) == -1.0);
  }
  CHECK_FALSE(days_since_1970(2023, 2, 29).has_value());
  CHECK(days_since_1970(1970, 1, 1) == 0);
}

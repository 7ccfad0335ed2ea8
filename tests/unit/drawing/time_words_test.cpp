#include "drawing/time_words.hpp"

#include <string>
#include <vector>

#include <doctest/doctest.h>

using namespace tideover::drawing;

TEST_CASE("a time is told in the units people use, rounded to what is asked") {
  struct Row {
    double seconds;
    double resolution_s;
    std::string expected;
  };
  const std::vector<Row> rows{
      {0.0, 1.0, "0"},
      {0.4, 1.0, "0"},
      {-0.4, 1.0, "0"},
      {59.7, 1.0, "1 min"},
      {90.0, 1.0, "1 min 30 s"},
      {3599.9, 60.0, "1 h"},
      {3600.0 + 30.0, 30.0, "1 h 30 s"},
      {86400.0, 60.0, "1 day"},
      {2 * 86400.0 + 3600.0 * 6, 3600.0, "2 days 6 h"},
      {-0.0105, 0.0005, "−10.5 ms"},
      {1800.012, 0.001, "30 min 12 ms"},
      {1801.25, 0.01, "30 min 1.25 s"},
      {3e-9, 1e-9, "3 ns"},
      {20 * year_s, year_s, "20 yr"},
      {300 * year_s, day_s, "109575 days"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.seconds);
    CHECK(time_label(row.seconds, row.resolution_s) == row.expected);
  }
}

TEST_CASE("a duration in a sentence has about three figures") {
  CHECK(duration_in_words(0.0) == "0");
  CHECK(duration_in_words(0.0349999999) == "35 ms");
  CHECK(duration_in_words(0.000123456) == "123 µs");
  CHECK(duration_in_words(12.437) == "12.4 s");
  CHECK(duration_in_words(200.4) == "3 min 20 s");
  CHECK(duration_in_words(8040.0) == "2 h 14 min");
  CHECK(duration_in_words(51.0 * 3600.0) == "2 days 3 h");
  CHECK(duration_in_words(40.0 * day_s) == "40 days");
  CHECK(duration_in_words(5.5 * year_s) == "5.5 yr");
  CHECK(duration_in_words(-90.0) == "−1 min 30 s");
}

TEST_CASE("rounding at the edge of a unit moves up to the next one") {
  CHECK(duration_in_words(59.9999) == "1 min");
  CHECK(duration_in_words(3599.9) == "1 h");
  CHECK(duration_in_words(0.9999) == "1 s");
}

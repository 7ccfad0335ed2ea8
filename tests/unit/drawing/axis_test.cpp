#include "drawing/axis.hpp"

#include <cmath>
#include <set>
#include <string>
#include <vector>

#include <doctest/doctest.h>
#include <rapidcheck.h>

using namespace tideover::drawing;

namespace {

std::vector<std::string> labels(const std::vector<Tick>& ticks) {
  std::vector<std::string> words;
  for (const Tick& tick : ticks) {
    if (!tick.label.empty()) words.push_back(tick.label);
  }
  return words;
}

using Words = std::vector<std::string>;

}  // namespace

TEST_CASE("given a range of values, ticks stand on round numbers and say so without noise") {
  struct Row {
    Range range;
    int at_most;
    Words expected;
  };
  const std::vector<Row> rows{
      {{0.0, 1.0}, 6, {"0.0", "0.2", "0.4", "0.6", "0.8", "1.0"}},
      {{0.0, 1.0},
       11,
       {"0.0", "0.1", "0.2", "0.3", "0.4", "0.5", "0.6", "0.7", "0.8", "0.9", "1.0"}},
      {{-1.0, 1.5}, 6, {"−1.0", "−0.5", "0.0", "0.5", "1.0", "1.5"}},
      {{-1.0, 1.5}, 5, {"−1", "0", "1"}},
      {{19.8, 25.3}, 6, {"20", "21", "22", "23", "24", "25"}},
      {{19.8, 25.3}, 3, {"20", "22", "24"}},
      {{19.8, 25.3}, 2, {"20", "25"}},
      {{0.0, 12000.0}, 4, {"0", "5000", "10\u2009000"}},
      {{0.0, 3e-6}, 4, {"0.000000", "0.000001", "0.000002", "0.000003"}},
      {{24.1, 24.1}, 5, {}},
  };
  for (const Row& row : rows) {
    CAPTURE(row.range.from);
    CAPTURE(row.range.to);
    CAPTURE(row.at_most);
    CHECK(labels(linear_ticks(row.range, row.at_most)) == row.expected);
  }
}

TEST_CASE("given any range, ticks rise, stay inside, differ in their words and are not too many") {
  CHECK(rc::check([] {
    const double from = *rc::gen::inRange(-1000000, 1000000) / 997.0;
    const double span = *rc::gen::inRange(1, 1000000) / 991.0;
    const int at_most = *rc::gen::inRange(1, 20);
    const std::vector<Tick> ticks = linear_ticks({from, from + span}, at_most);
    RC_ASSERT(static_cast<int>(ticks.size()) <= at_most);
    // A finer 1-2-5 step than at_most + 1 intervals is at most 2.5 times finer.
    RC_ASSERT(static_cast<int>(ticks.size()) >= (at_most - 1) / 3);
    std::set<std::string> words;
    for (std::size_t i = 0; i < ticks.size(); ++i) {
      RC_ASSERT(ticks[i].at >= from - 1e-5 * span);
      RC_ASSERT(ticks[i].at <= from + span + 1e-5 * span);
      if (i > 0) RC_ASSERT(ticks[i - 1].at < ticks[i].at);
      RC_ASSERT(words.insert(ticks[i].label).second);
    }
  }));
}

TEST_CASE("given data, a nice range holds it and ends on round values") {
  CHECK(nice_range({0.03, 142.0}, 4) == Range{0.0, 150.0});
  CHECK(nice_range({19.9, 24.1}, 5) == Range{19.0, 25.0});
  CHECK(nice_range({-0.75, 1.02}, 4) == Range{-1.0, 1.5});
  CHECK(nice_range({0.0, 0.0}, 4) == Range{-0.5, 0.5});
  SUBCASE("a voltage steady but for noise is not blown up") {
    const Range range = nice_range({24.0999999, 24.1000001}, 4);
    CHECK(range.from <= 24.05);
    CHECK(range.to >= 24.15);
    CHECK(range.span() < 0.5);
  }
  SUBCASE("a log range ends on 1, 2 or 5 times a power of ten") {
    CHECK(nice_range({0.013, 700.0}, 4, Scale::Log) == Range{0.01, 1000.0});
    CHECK(nice_range({3.0, 3.0}, 4, Scale::Log) == Range{2.0, 5.0});
    CHECK(nice_range({1e-3, 1e3}, 4, Scale::Log) == Range{1e-3, 1e3});
  }
}

TEST_CASE("given decades, a log axis labels powers of ten and marks what lies between") {
  CHECK(labels(log_ticks({0.001, 1000.0}, 8)) ==
        Words{"0.001", "0.01", "0.1", "1", "10", "100", "1000"});
  CHECK(labels(log_ticks({1.0, 10.0}, 5)) == Words{"1", "2", "5", "10"});
  CHECK(labels(log_ticks({2.0, 50.0}, 5)) == Words{"2", "5", "10", "20", "50"});
  CHECK(labels(log_ticks({1e-9, 1e-6}, 5)) == Words{"10⁻⁹", "10⁻⁸", "10⁻⁷", "10⁻⁶"});
  CHECK(labels(log_ticks({1e-12, 1e12}, 6)).size() <= 6);
  CHECK(labels(log_ticks({3.0, 4.0}, 3)) == Words{"3.0", "3.5", "4.0"});
  // 2 to 9 in each of two decades stand between 1, 10 and 100.
  CHECK(log_ticks({1.0, 100.0}, 4).size() == 19);
}

TEST_CASE("given a stretch of time, ticks stand where a clock would have them") {
  struct Row {
    Range seconds;
    int at_most;
    Words expected;
  };
  constexpr double min = 60.0;
  constexpr double h = 3600.0;
  constexpr double day = 86400.0;
  constexpr double yr = 365.25 * day;
  const std::vector<Row> rows{
      {{0.0, 2e-6}, 3, {"0", "1 µs", "2 µs"}},
      {{0.0, 0.05}, 6, {"0", "10 ms", "20 ms", "30 ms", "40 ms", "50 ms"}},
      {{-0.02, 0.04}, 4, {"−20 ms", "0", "20 ms", "40 ms"}},
      {{0.0, 0.004},
       10,
       {"0", "500 µs", "1 ms", "1.5 ms", "2 ms", "2.5 ms", "3 ms", "3.5 ms", "4 ms"}},
      {{0.0, 2.0}, 5, {"0", "500 ms", "1 s", "1.5 s", "2 s"}},
      {{0.0, 30.0}, 4, {"0", "10 s", "20 s", "30 s"}},
      {{0.0, 30 * min}, 3, {"0", "15 min", "30 min"}},
      {{0.0, 30 * min}, 7, {"0", "5 min", "10 min", "15 min", "20 min", "25 min", "30 min"}},
      {{0.0, 2 * h}, 5, {"0", "30 min", "1 h", "1 h 30 min", "2 h"}},
      {{0.0, 4.4 * h}, 5, {"0", "1 h", "2 h", "3 h", "4 h"}},
      {{0.0, 4.4 * h}, 3, {"0", "2 h", "4 h"}},
      {{0.0, day}, 5, {"0", "6 h", "12 h", "18 h", "1 day"}},
      {{0.0, 10 * day}, 6, {"0", "2 days", "4 days", "6 days", "8 days", "10 days"}},
      {{0.0, yr}, 5, {"0", "100 days", "200 days", "300 days"}},
      {{0.0, 5 * yr}, 6, {"0", "1 yr", "2 yr", "3 yr", "4 yr", "5 yr"}},
      {{h, h + 1.0}, 3, {"1 h", "1 h 500 ms", "1 h 1 s"}},
      {{0.3, 0.4}, 1, {"400 ms"}},
  };
  for (const Row& row : rows) {
    CAPTURE(row.seconds.from);
    CAPTURE(row.seconds.to);
    CAPTURE(row.at_most);
    CHECK(labels(time_ticks(row.seconds, row.at_most)) == row.expected);
  }
}

TEST_CASE("numbers show as many decimals as their step and never a negative zero") {
  CHECK(number_label(0.1 + 0.2, 0.1) == "0.3");
  CHECK(number_label(-0.0, 0.5) == "0.0");
  CHECK(number_label(-0.001, 1.0) == "0");
  CHECK(number_label(-12.5, 0.5) == "−12.5");
  CHECK(number_label(9999.0, 1.0) == "9999");
  CHECK(number_label(1234567.0, 1.0) == "1\u2009234\u2009567");
  CHECK(number_label(12345.75, 0.05) == "12\u2009345.75");
}

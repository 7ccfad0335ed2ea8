#include "cell/log_number.hpp"

#include <charconv>
#include <cmath>
#include <cstdlib>
#include <string>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "base/text.hpp"

using namespace tideover::cell;

namespace {

/// The fast way alone; not a number if it declines.
double scanned(const std::string& text, char mark = '.', int shift = 0) {
  double number = std::nan("");
  const char* const end = text.data() + text.size();
  return scan_number(text.data(), end, mark, shift, number) == end ? number : std::nan("");
}

}  // namespace

TEST_CASE("numbers of a log: up to fifteen digits are the nearest double") {
  CHECK(rc::check([] {
    const auto mantissa = *rc::gen::inRange<long long>(0, 999'999'999'999'999);
    const int decimals = *rc::gen::inRange(0, 16);
    std::string digits = std::to_string(mantissa);
    if (digits.size() <= static_cast<std::size_t>(decimals))
      digits.insert(0, static_cast<std::size_t>(decimals) + 1 - digits.size(), '0');
    if (decimals > 0) digits.insert(digits.size() - static_cast<std::size_t>(decimals), 1, '.');
    const bool negative = *rc::gen::arbitrary<bool>();
    if (negative) digits.insert(0, 1, '-');
    RC_ASSERT(scanned(digits) == std::strtod(digits.c_str(), nullptr));
    RC_ASSERT(read_number(digits, '.') == std::strtod(digits.c_str(), nullptr));
  }));
}

TEST_CASE("numbers of a log: any double that is written shortest is read back") {
  CHECK(rc::check([] {
    const auto number = *rc::gen::arbitrary<double>();
    if (!std::isfinite(number)) return;
    RC_ASSERT(read_number(tideover::base::number_text(number), '.') == number);
  }));
}

TEST_CASE("numbers of a log: millivolts become volts without rounding twice") {
  CHECK(scanned("3712", '.', 3) == 3.712);
  CHECK(scanned("4199.7", '.', 3) == 4.1997);
  CHECK(read_number("3712", '.', 3) == 3.712);
  CHECK(read_number("1e-5", '.', 3) == 1e-8);
  for (int millivolts = 0; millivolts < 5000; ++millivolts) {
    const std::string volts = std::to_string(millivolts / 1000) + '.' +
                              std::to_string(1000 + millivolts % 1000).substr(1);
    CHECK_EQ(scanned(std::to_string(millivolts), '.', 3), std::strtod(volts.c_str(), nullptr));
  }
}

TEST_CASE("numbers of a log: decimal commas and thousands") {
  CHECK(scanned("3,712", ',') == 3.712);
  CHECK(read_number("3,712", ',') == 3.712);
  CHECK(read_number("1.234,5", ',') == 1234.5);
  CHECK(read_number("1,234.5", '.') == 1234.5);
  CHECK(read_number("12.345.678", ',') == 12345678.0);
  CHECK(read_number("0.5", ',') == 0.5);
  CHECK(read_number("3,7", '.') == 3.7);
  CHECK(read_number(" -1.5E+2 ", '.') == -150.0);
  CHECK(read_number(".5", '.') == 0.5);
  CHECK(read_number("5.", '.') == 5.0);
}

TEST_CASE("numbers of a log: what is none is none") {
  for (const char* text : {"", "-", "+", ".", "abc", "1.2.3", "1,2,3", "3.7V", "1e", "1e999", "--1",
                           "1 2", "0x10", "inf", "1,23.456,7"}) {
    CAPTURE(text);
    CHECK_FALSE(read_number(text, '.').has_value());
  }
  CHECK(means_no_reading(" N/A "));
  CHECK(means_no_reading(""));
  CHECK_FALSE(means_no_reading("0"));
}

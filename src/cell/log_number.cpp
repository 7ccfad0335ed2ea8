#include "cell/log_number.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string>

#include "base/text.hpp"
#include "cell/log_fields.hpp"

namespace tideover::cell {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Whether the marks of `digits` stand before groups of three: 1.234 or 12.345.678.
bool are_thousands(std::string_view digits, char mark) {
  std::size_t at = digits.find(mark);
  if (at == 0 || at > 3) return false;
  while (at < digits.size()) {
    const std::size_t next = std::min(digits.find(mark, at + 1), digits.size());
    if (next - at != 4) return false;
    at = next;
  }
  return true;
}

/// The digits without thousands marks and with a point; empty if the marks make no sense.
std::string plain(std::string_view digits, char mark) {
  const char other = mark == ',' ? '.' : ',';
  const auto others = std::ranges::count(digits, other);
  const auto marks = std::ranges::count(digits, mark);
  char decimal = mark;
  if (marks == 0 && others == 1 && !(mark == ',' && are_thousands(digits, other))) decimal = other;
  if (marks > 0 && others > 0 && digits.rfind(other) > digits.rfind(mark)) decimal = other;
  const char group = decimal == ',' ? '.' : ',';
  const std::size_t at = digits.find(decimal);
  if (std::ranges::count(digits, decimal) > 1) return {};
  const std::string_view whole = digits.substr(0, at);
  if (whole.find(group) != std::string_view::npos && !are_thousands(whole, group)) return {};
  std::string text;
  text.reserve(digits.size());
  for (std::size_t i = 0; i < digits.size(); ++i) {
    if (digits[i] == decimal) {
      text += '.';
    } else if (digits[i] != group) {
      text += digits[i];
    } else if (i > at) {
      return {};
    }
  }
  return text;
}

}  // namespace

std::optional<double> read_number(std::string_view field, char mark, int shift) {
  field = trimmed(field);
  const bool negative = field.starts_with('-');
  if (negative || field.starts_with('+')) field.remove_prefix(1);
  if (field.empty() || field.size() > 400) return std::nullopt;
  std::size_t end = 0;
  while (end < field.size() && (is_digit(field[end]) || field[end] == '.' || field[end] == ','))
    ++end;
  std::string text = plain(field.substr(0, end), mark);
  if (std::ranges::none_of(text, is_digit)) return std::nullopt;
  int exponent = 0;
  if (end < field.size()) {
    std::string_view tail = field.substr(end);
    if (tail.size() < 2 || (tail[0] != 'e' && tail[0] != 'E')) return std::nullopt;
    tail.remove_prefix(tail[1] == '+' ? 2 : 1);
    const auto [stop, error] = std::from_chars(tail.data(), tail.data() + tail.size(), exponent);
    if (error != std::errc{} || stop != tail.data() + tail.size()) return std::nullopt;
    if (std::abs(exponent) > 400) return std::nullopt;
  }
  text += 'e' + std::to_string(exponent - shift);
  double number = 0.0;
  const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{} || stop != text.data() + text.size() || !std::isfinite(number))
    return std::nullopt;
  return negative ? -number : number;
}

bool means_no_reading(std::string_view field) {
  const std::string word = base::lower_case(trimmed(field));
  constexpr std::array<std::string_view, 12> words{"",    "-",  "--", "---",  "----", "nan",
                                                   "n/a", "na", "ol", "o.l.", "null", "none"};
  return std::ranges::find(words, word) != words.end();
}

}  // namespace tideover::cell

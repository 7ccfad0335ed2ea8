#include "base/text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>

#include "base/contract.hpp"

namespace tideover::base {
namespace {

unsigned byte_at(std::string_view text, std::size_t at) {
  return static_cast<unsigned char>(text[at]);
}

/// Length of the well-formed sequence that starts at `at`; 0 if there is none.
std::size_t sequence_length(std::string_view text, std::size_t at) {
  const unsigned lead = byte_at(text, at);
  if (lead < 0x80) return 1;
  const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || at + length > text.size()) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte_at(text, at + i) & 0xC0U) != 0x80U) return 0;
  }
  const unsigned second = byte_at(text, at + 1);
  const bool overlong = (lead == 0xE0 && second < 0xA0) || (lead == 0xF0 && second < 0x90);
  const bool surrogate = lead == 0xED && second > 0x9F;
  const bool too_high = lead == 0xF4 && second > 0x8F;
  return overlong || surrogate || too_high ? 0 : length;
}

std::size_t step(std::string_view text, std::size_t at) {
  return std::max<std::size_t>(1, sequence_length(text, at));
}

std::string join(const std::vector<std::string>& words, std::string_view conjunction,
                 std::string_view quote) {
  std::string list;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0 && i + 1 == words.size()) {
      list.append(" ").append(conjunction).append(" ");
    } else if (i > 0) {
      list.append(", ");
    }
    list.append(quote).append(words[i]).append(quote);
  }
  return list;
}

void drop_trailing_zeros(std::string& text) {
  if (text.find('.') == std::string::npos || text.find('e') != std::string::npos) return;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
}

}  // namespace

std::optional<std::size_t> first_bad_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = sequence_length(text, at);
    if (length == 0) return at;
    at += length;
  }
  return std::nullopt;
}

std::size_t count_code_points(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); at += step(text, at)) ++count;
  return count;
}

std::size_t byte_of_code_point(std::string_view text, std::size_t index) {
  std::size_t at = 0;
  for (; index > 0 && at < text.size(); --index) at += step(text, at);
  return at;
}

std::size_t edit_distance(std::string_view a, std::string_view b, std::size_t limit) {
  const std::size_t gap = a.size() > b.size() ? a.size() - b.size() : b.size() - a.size();
  if (gap > limit) return limit + 1;
  std::vector<std::size_t> before_last(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    before_last.swap(last);
    last.swap(row);
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, replaced});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
    if (*std::min_element(row.begin(), row.end()) > limit) return limit + 1;
  }
  return std::min(row.back(), limit + 1);
}

std::optional<std::string> nearest_word(std::string_view word,
                                        const std::vector<std::string>& words) {
  const std::string lower = lower_case(word);
  for (const std::string& candidate : words) {
    if (lower_case(candidate) == lower) return candidate;
  }
  const std::size_t limit = std::clamp<std::size_t>((word.size() + 2) / 3, 1, 4);
  std::optional<std::string> nearest;
  std::pair<std::size_t, bool> best{limit, true};  // distance, and whether the first letters differ
  for (const std::string& candidate : words) {
    const std::string other = lower_case(candidate);
    const std::size_t distance = edit_distance(lower, other, limit);
    if (distance > limit || distance >= std::max(word.size(), candidate.size())) continue;
    const std::pair<std::size_t, bool> rank{distance, lower[0] != other[0]};
    if (nearest && rank >= best) continue;
    nearest = candidate;
    best = rank;
  }
  return nearest;
}

std::string list_in_words(const std::vector<std::string>& words, std::string_view conjunction) {
  return join(words, conjunction, "");
}

std::string quoted_list(const std::vector<std::string>& words, std::string_view conjunction) {
  return join(words, conjunction, "`");
}

std::string lower_case(std::string_view text) {
  std::string lower(text);
  for (char& letter : lower) {
    if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
  }
  return lower;
}

std::string number_text(double number) {
  std::array<char, 32> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), number);
  return {buffer.data(), end.ptr};
}

std::string number_text(double number, int digits) {
  TIDEOVER_EXPECT(digits >= 1 && digits <= 17, "significant digits between 1 and 17");
  std::array<char, 400> buffer{};
  char* const first = buffer.data();
  char* const last = first + buffer.size();
  auto end = std::to_chars(first, last, number, std::chars_format::scientific, digits - 1);
  std::string text(first, end.ptr);
  const std::size_t mark = text.find('e');
  if (mark == std::string::npos) return text;  // nan, inf
  double rounded = 0.0;
  std::from_chars(text.data(), text.data() + text.size(), rounded);
  if (rounded == 0.0) return "0";
  const int exponent = static_cast<int>(std::floor(std::log10(std::abs(rounded)) + 1e-12));
  if (exponent < -5 || exponent > 14) return text;
  const int decimals = std::max(0, digits - 1 - exponent);
  end = std::to_chars(first, last, rounded, std::chars_format::fixed, decimals);
  text.assign(first, end.ptr);
  drop_trailing_zeros(text);
  return text;
}

}  // namespace tideover::base

/// How much room words take, so that labels can be placed before any writer sees them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tideover::drawing {

/// Share of the letter body from the baseline up to the top of capitals and digits, and down to the
/// lowest descender. Source: Helvetica's published metrics (718 and 207 of 1000), from memory.
inline constexpr double cap_height = 0.72;
inline constexpr double descent = 0.21;

/// One code point and what is left of the text behind it. A malformed byte reads as U+FFFD.
struct CodePoint {
  char32_t value = 0;
  std::string_view rest;
};
[[nodiscard]] CodePoint first_code_point(std::string_view text);

/// Width of one line of words in mm. `size_mm` is the letter body, > 0.
/// Source: advance widths of Helvetica, from memory, equal to those of Liberation Sans 1.07.4 in
/// the printable ASCII range; other signs by a rounded-up class width, so that the answer errs to
/// the wide side.
[[nodiscard]] double text_width_mm(std::string_view words, double size_mm, bool bold = false);

/// Breaks words at spaces so that each line is at most `width_mm` wide; one word that is wider
/// stands alone. No words, no lines.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view words, double size_mm,
                                               double width_mm);

}  // namespace tideover::drawing

#include "drawing/lettering.hpp"

#include <array>
#include <cstddef>

#include "base/contract.hpp"

namespace tideover::drawing {

namespace {

constexpr char32_t replacement = 0xFFFD;

// Thousandths of the letter body, U+0020 to U+007E.
constexpr std::array<int, 95> ascii_widths{
    278,  278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,  // to /
    556,  556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,  // 0 to ?
    1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,  // @ to O
    667,  778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,  // P to _
    333,  556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,  // ` to o
    556,  556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584};      // p to ~

int width_of(char32_t letter) {
  if (letter >= 0x20 && letter <= 0x7E) return ascii_widths[letter - 0x20];
  if (letter < 0x20) return 0;
  if (letter >= 0x0300 && letter <= 0x036F) return 0;                       // combining marks
  if (letter == 0x00B0 || letter == 0x00B7) return 400;                     // degree, middle dot
  if (letter == 0x2009 || letter == 0x202F) return 200;                     // thin spaces
  if (letter < 0x0250 || letter == 0x2212 || letter == 0x2013) return 700;  // Latin, minus, en dash
  return 1000;
}

// Length of the sequence a lead byte announces and the bits it brings; 0 where it cannot lead.
struct Lead {
  std::size_t length = 0;
  char32_t bits = 0;
  char32_t lowest = 0;
};

Lead lead_of(unsigned char byte) {
  if (byte < 0x80) return {1, byte, 0};
  if ((byte & 0xE0U) == 0xC0U) return {2, byte & 0x1FU, 0x80};
  if ((byte & 0xF0U) == 0xE0U) return {3, byte & 0x0FU, 0x800};
  if ((byte & 0xF8U) == 0xF0U) return {4, byte & 0x07U, 0x10000};
  return {};
}

}  // namespace

CodePoint first_code_point(std::string_view text) {
  TIDEOVER_EXPECT(!text.empty(), "a code point of no text");
  const CodePoint malformed{replacement, text.substr(1)};
  const Lead lead = lead_of(static_cast<unsigned char>(text[0]));
  if (lead.length == 0 || lead.length > text.size()) return malformed;
  char32_t value = lead.bits;
  for (std::size_t i = 1; i < lead.length; ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if ((byte & 0xC0U) != 0x80U) return malformed;
    value = (value << 6U) | (byte & 0x3FU);
  }
  const bool surrogate = value >= 0xD800 && value <= 0xDFFF;
  if (value < lead.lowest || value > 0x10FFFF || surrogate) return malformed;
  return {value, text.substr(lead.length)};
}

double text_width_mm(std::string_view words, double size_mm, bool bold) {
  int thousandths = 0;
  while (!words.empty()) {
    const CodePoint letter = first_code_point(words);
    thousandths += width_of(letter.value);
    words = letter.rest;
  }
  // Helvetica Bold runs up to a tenth wider than the regular face.
  const double widening = bold ? 1.1 : 1.0;
  return 1e-3 * thousandths * size_mm * widening;
}

std::vector<std::string> wrapped(std::string_view words, double size_mm, double width_mm) {
  std::vector<std::string> lines;
  while (!words.empty()) {
    const std::size_t space = words.find(' ');
    const std::string word{words.substr(0, space)};
    words.remove_prefix(space == std::string_view::npos ? words.size() : space + 1);
    if (word.empty()) continue;
    const std::string longer = lines.empty() ? word : lines.back() + ' ' + word;
    if (!lines.empty() && text_width_mm(longer, size_mm) <= width_mm) {
      lines.back() = longer;
    } else {
      lines.push_back(word);
    }
  }
  return lines;
}

}  // namespace tideover::drawing

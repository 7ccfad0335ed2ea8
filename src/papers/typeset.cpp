#include "papers/typeset.hpp"

#include <array>
#include <cctype>
#include <optional>

#include "drawing/svg.hpp"

namespace tideover::papers {

namespace {

struct Sign {
  std::string_view plain;
  std::string_view printed;
};

/// Words that stand alone, such as units after a number.
constexpr std::array signs{
    Sign{"degC", "\u00b0C"}, Sign{"Ohm", "\u03a9"},          Sign{"mOhm", "m\u03a9"},
    Sign{"kOhm", "k\u03a9"}, Sign{"MOhm", "M\u03a9"},        Sign{"uOhm", "\u00b5\u03a9"},
    Sign{"uF", "\u00b5F"},   Sign{"uA", "\u00b5A"},          Sign{"uV", "\u00b5V"},
    Sign{"uH", "\u00b5H"},   Sign{"us", "\u00b5s"},          Sign{"uW", "\u00b5W"},
    Sign{"mm2", "mm\u00b2"}, Sign{"cm2", "cm\u00b2"},        Sign{"m2", "m\u00b2"},
    Sign{"mm3", "mm\u00b3"}, Sign{"cm3", "cm\u00b3"},        Sign{"m3", "m\u00b3"},
    Sign{"A2s", "A\u00b2s"}, Sign{"Ohm.m", "\u03a9\u22c5m"}, Sign{"+/-", "\u00b1"},
    Sign{"<=", "\u2264"},    Sign{">=", "\u2265"},
};

constexpr std::string_view minus = "\u2212";
constexpr std::string_view no_break = "\u00a0";

bool is_digit(char letter) { return std::isdigit(static_cast<unsigned char>(letter)) != 0; }

std::string_view printed_form(std::string_view word) {
  for (const Sign& sign : signs) {
    if (sign.plain == word) return sign.printed;
  }
  return word;
}

/// One word between blanks, with its brackets and full stops kept around it.
std::string print_word(std::string_view word) {
  const auto first = word.find_first_not_of("([");
  if (first == std::string_view::npos) return std::string(word);
  auto last = word.find_last_not_of(".,;:)]");
  if (last == std::string_view::npos) return std::string(word);
  const std::string_view inside = word.substr(first, last - first + 1);
  std::string text(word.substr(0, first));
  if (inside.size() > 1 && inside.front() == '-' && is_digit(inside[1])) {
    text.append(minus).append(inside.substr(1));
  } else {
    text.append(printed_form(inside));
  }
  return text.append(word.substr(last + 1));
}

bool is_number(std::string_view word) {
  return !word.empty() && is_digit(word.back()) &&
         (is_digit(word.front()) || word.front() == '-' || word.front() == '(');
}

/// Short words after a number are its unit, whatever brackets and stops follow them.
bool may_be_unit(std::string_view word) {
  const auto last = word.find_last_not_of(".,;:)]");
  return last < 5;  // npos, where there is nothing else, is far beyond
}

std::string with_signs_of(std::string_view words) {
  std::string text;
  std::string_view before;
  while (!words.empty()) {
    const auto blank = words.find(' ');
    const std::string_view word = words.substr(0, blank);
    if (!before.empty() && is_number(before) && may_be_unit(word)) {
      text.replace(text.size() - 1, 1, no_break);
    }
    text += print_word(word);
    if (blank == std::string_view::npos) break;
    text += ' ';
    before = word;
    words.remove_prefix(blank + 1);
  }
  return text;
}

}  // namespace

std::string with_signs(std::string_view words) { return with_signs_of(words); }

std::string typeset(std::string_view words) {
  std::string text;
  bool is_code = false;
  while (true) {
    const auto quote = words.find('`');
    const std::string_view piece = words.substr(0, quote);
    if (is_code) {
      text += "<code>" + drawing::xml_escaped(piece) + "</code>";
    } else {
      text += drawing::xml_escaped(with_signs_of(piece));
    }
    if (quote == std::string_view::npos) return text;
    words.remove_prefix(quote + 1);
    is_code = !is_code;
    if (is_code && words.find('`') == std::string_view::npos) is_code = false;
  }
}

}  // namespace tideover::papers

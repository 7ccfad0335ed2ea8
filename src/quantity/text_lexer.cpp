#include "quantity/text_lexer.hpp"

#include <array>

#include "base/text.hpp"

namespace tideover::quantity {
namespace {

constexpr std::string_view minus_sign = "\u2212";
constexpr std::string_view plus_minus_sign = "\u00B1";

/// Bytes of white space at the start of `text`: blank, tab, no-break, thin and narrow no-break.
std::size_t blank_length(std::string_view text) {
  if (text.starts_with(' ') || text.starts_with('\t')) return 1;
  constexpr std::array<std::string_view, 3> blanks{"\u00A0", "\u2009", "\u202F"};
  for (const std::string_view blank : blanks) {
    if (text.starts_with(blank)) return blank.size();
  }
  return 0;
}

std::string_view without_blanks_before(std::string_view text) {
  while (const std::size_t length = blank_length(text)) text.remove_prefix(length);
  return text;
}

std::string_view without_blanks_behind(std::string_view text) {
  for (bool again = true; again;) {
    again = false;
    for (std::size_t length = 1; length <= 3 && length <= text.size(); ++length) {
      if (blank_length(text.substr(text.size() - length)) == length) {
        text.remove_suffix(length);
        again = true;
        break;
      }
    }
  }
  return text;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::size_t digits_length(std::string_view text, std::size_t at) {
  std::size_t end = at;
  while (end < text.size() && is_digit(text[end])) ++end;
  return end - at;
}

std::size_t sign_length(std::string_view text) {
  if (text.starts_with('+') || text.starts_with('-')) return 1;
  return text.starts_with(minus_sign) ? minus_sign.size() : 0;
}

/// Length of `[e [sign] digits]` at `at`.
std::size_t exponent_length(std::string_view text, std::size_t at) {
  if (at >= text.size() || (text[at] != 'e' && text[at] != 'E')) return 0;
  std::size_t end = at + 1;
  if (end < text.size() && (text[end] == '+' || text[end] == '-')) ++end;
  const std::size_t digits = digits_length(text, end);
  return digits == 0 ? 0 : end + digits - at;
}

}  // namespace

Lexer::Lexer(std::string_view text)
    : text_(text), whole_(without_blanks_behind(without_blanks_before(text))), rest_(whole_) {}

int Lexer::column(const Token& token) const {
  const auto before = static_cast<std::size_t>(token.text.data() - text_.data());
  return static_cast<int>(base::count_code_points(text_.substr(0, before))) + 1;
}

bool Lexer::begins_digit() const {
  if (rest_.empty()) return false;
  return is_digit(rest_[0]) || (rest_[0] == '.' && rest_.size() > 1 && is_digit(rest_[1]));
}

bool Lexer::begins_comma_digit() const {
  return rest_.size() > 1 && rest_[0] == ',' && is_digit(rest_[1]);
}

Token Lexer::take_number() {
  const std::size_t sign = sign_length(rest_);
  std::size_t end = sign;
  const std::size_t whole_digits = digits_length(rest_, end);
  end += whole_digits;
  if (end < rest_.size() && rest_[end] == '.') {
    const std::size_t fraction = digits_length(rest_, end + 1);
    if (whole_digits + fraction > 0) end += 1 + fraction;
  }
  if (end == sign) return {rest_.substr(0, 0)};
  end += exponent_length(rest_, end);
  const Token number{rest_.substr(0, end)};
  advance(end);
  return number;
}

Token Lexer::take_unit() {
  std::size_t end = 0;
  while (end < rest_.size()) {
    const std::string_view here = rest_.substr(end);
    const bool is_dash = here.starts_with("\u2013") || here.starts_with("\u2014");
    if (blank_length(here) > 0 || sign_length(here) > 0 || is_dash ||
        here.starts_with(plus_minus_sign)) {
      break;
    }
    ++end;
  }
  if (end > 1 && rest_[end - 1] == '/' && sign_length(rest_.substr(end)) > 0) --end;
  const Token unit{rest_.substr(0, end)};
  advance(end);
  return unit;
}

bool Lexer::take_word(std::string_view word) {
  if (!rest_.starts_with(word) || blank_length(rest_.substr(word.size())) == 0) return false;
  advance(word.size());
  return true;
}

bool Lexer::take_plus_minus() {
  constexpr std::array<std::string_view, 3> spellings{"+/-", "+-", plus_minus_sign};
  for (const std::string_view spelling : spellings) {
    if (!rest_.starts_with(spelling)) continue;
    advance(spelling.size());
    return true;
  }
  return false;
}

char Lexer::take_sign() {
  const std::size_t length = sign_length(rest_);
  if (length == 0) return '\0';
  const char sign = rest_[0] == '+' ? '+' : '-';
  advance(length);
  return sign;
}

void Lexer::take_slash() {
  if (rest_.starts_with('/')) advance(1);
}

void Lexer::advance(std::size_t bytes) {
  rest_.remove_prefix(bytes);
  rest_ = without_blanks_before(rest_);
}

}  // namespace tideover::quantity

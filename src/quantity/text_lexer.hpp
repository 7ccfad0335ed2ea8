/// The words of a quantity's text: numbers, units, signs. Knows no unit by name.
#pragma once

#include <cstddef>
#include <string_view>

namespace tideover::quantity {

/// A stretch of the text that was read.
struct Token {
  std::string_view text;

  /// From the start of this one to the end of `last`; both from one text, in order.
  [[nodiscard]] Token to(const Token& last) const {
    const char* const end = last.text.data() + last.text.size();
    return {std::string_view(text.data(), static_cast<std::size_t>(end - text.data()))};
  }
};

/// Moves over the text; white space (also no-break and thin) between words is skipped.
class Lexer {
 public:
  explicit Lexer(std::string_view text);

  [[nodiscard]] std::string_view text() const { return text_; }
  [[nodiscard]] bool at_end() const { return rest_.empty(); }
  /// All that is left, without white space at its end.
  [[nodiscard]] Token rest() const { return {rest_}; }
  /// All of the text, without white space around it.
  [[nodiscard]] Token whole() const { return {whole_}; }
  /// Code points before the token, plus one.
  [[nodiscard]] int column(const Token& token) const;

  [[nodiscard]] bool begins_digit() const;
  [[nodiscard]] bool begins_comma_digit() const;

  /// `[sign] digits [. digits] [e [sign] digits]`; empty if none stands here.
  Token take_number();
  /// Up to white space, a sign or the end; without a `/` that a sign follows. May be empty.
  Token take_unit();
  /// `word` if it stands here as a word of its own.
  bool take_word(std::string_view word);
  /// `+/-`, `+-` or `±`.
  bool take_plus_minus();
  /// `+`, `-` (also U+2212) or nothing.
  char take_sign();
  void take_slash();

 private:
  void advance(std::size_t bytes);

  std::string_view text_;
  std::string_view whole_;
  std::string_view rest_;
};

}  // namespace tideover::quantity

/// Text: UTF-8, words near each other, lists in words, and numbers that no locale touches.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace tideover::base {

/// Byte offset of the first byte that is not well-formed UTF-8 (Unicode 15, table 3-7: no overlong
/// forms, no surrogates, nothing above U+10FFFF); nothing if all of `text` is well-formed.
[[nodiscard]] std::optional<std::size_t> first_bad_utf8(std::string_view text);

/// Number of code points of well-formed text; a stray byte counts as one.
[[nodiscard]] std::size_t count_code_points(std::string_view text);

/// Byte offset of the code point number `index` (from 0); `text.size()` when there are fewer.
[[nodiscard]] std::size_t byte_of_code_point(std::string_view text, std::size_t index);

/// Inserted, dropped, replaced or swapped neighbouring bytes that lead from one word to the other
/// (optimal string alignment; Damerau 1964 with the restriction of Wagner and Fischer 1974).
/// Stops counting at `limit` + 1.
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b, std::size_t limit);

/// The word of `words` nearest to `word`: equal but for letter case first, then by edit distance up
/// to a third of the word's length, rounded up (at most 4); of equals the
/// one with the same first letter, then the earliest. Nothing if none
/// is that near.
[[nodiscard]] std::optional<std::string> nearest_word(std::string_view word,
                                                      const std::vector<std::string>& words);

/// "a", "a or b", "a, b or c"; empty for no words.
[[nodiscard]] std::string list_in_words(const std::vector<std::string>& words,
                                        std::string_view conjunction = "or");

/// As above with every word between back quotes.
[[nodiscard]] std::string quoted_list(const std::vector<std::string>& words,
                                      std::string_view conjunction = "or");

/// ASCII letters in lower case; other bytes as they are.
[[nodiscard]] std::string lower_case(std::string_view text);

/// The shortest decimal text that reads back as the same double: "0.1", "1e+100", "nan".
[[nodiscard]] std::string number_text(double number);

/// `digits` significant digits (1 to 17) without exponent where the size allows; trailing zeros
/// after the point are dropped.
[[nodiscard]] std::string number_text(double number, int digits);

}  // namespace tideover::base

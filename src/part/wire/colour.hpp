/// Colours of wires by letter code.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace tideover::part {

struct ColourLetters {
  std::string_view letters;  ///< "RD"
  std::string_view name;     ///< "red"
};
/// In the order of IEC 60757 (letters from memory).
[[nodiscard]] const std::vector<ColourLetters>& colour_letters();

/// Colours of one wire, main and stripe alike, each as an index into colour_letters(), in the order
/// written; nothing if `code` is no row of known letter pairs without gaps.
[[nodiscard]] std::optional<std::vector<std::size_t>> read_colours(std::string_view code);

/// "red and blue" for RDBU; the code itself where it is unknown.
[[nodiscard]] std::string colour_in_words(std::string_view code);

/// What is wrong with `code` for a wire, as half a sentence with the remedy; nothing if it is
/// right. IEC 60757: combined letters follow the order of the table (RDBU, not BURD), except GNYE,
/// which is for protective earth only, and which then has no second way of writing.
[[nodiscard]] std::optional<std::string> colour_fault(std::string_view code, bool is_protective);

}  // namespace tideover::part

/// The units that a sheet may use, one row each. Every word is listed; nothing is put together from
/// prefixes, so what is read, what is suggested and what a schema allows are the same words.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/measure.hpp"

namespace tideover::quantity {

/// SI value = number * multiply / divide + offset. Two factors, because 650 / 1000 is the double
/// nearest to 0.65 and 650 * 0.001 need not be.
struct Unit {
  std::string_view word;
  std::string_view other_spellings;  ///< separated by spaces
  Measure measure;
  double multiply = 1.0;
  double divide = 1.0;
  double offset = 0.0;
};

/// All units but the wire gauge. Sources: SI Brochure, 9th edition, tables 4, 7 and 8 (symbols,
/// prefixes, units accepted with the SI: min, h, d, l), from memory; the year of 365.25 days and a
/// month of one twelfth of it: IAU recommendations, from memory; degree Fahrenheit: NIST SP 811,
/// annex B, from memory.
[[nodiscard]] std::span<const Unit> unit_table();

/// The word of the wire gauge, read as the conductor's cross-section.
inline constexpr std::string_view gauge_word = "AWG";

/// Cross-section in m2 of solid round wire of American wire gauge `number` (0 to 40), by
/// d = 0.005 in * 92^((36 - number)/39): ASTM B258, from memory.
[[nodiscard]] double gauge_area_m2(int number);

/// The row of `word`, by its word or another spelling, for the measure if several measures share
/// it (degC is a point, or a difference inside a tolerance; % is one row).
[[nodiscard]] const Unit* find_unit(std::string_view word);

/// All words and spellings of one measure.
[[nodiscard]] std::vector<std::string> unit_words(const Measure& measure);

/// The unit that `word` was likely meant to be: first among those of `expected`, then among all.
[[nodiscard]] std::optional<std::string> nearest_unit(std::string_view word,
                                                      const Measure& expected);

}  // namespace tideover::quantity

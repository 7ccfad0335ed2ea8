/// The words that headings are made of, and what they stand for.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tideover::cell {

/// Groups of words, in English and a few other languages.
enum class Word {
  Voltage,
  Current,
  Charge,    ///< capacity, charge, q: what a counter counts
  Charging,  ///< chg: the direction, where another word tells the quantity
  Discharging,
  Temperature,
  Ambient,
  Resistance,
  Time,
  Date,
  Partial,  ///< of a step or a cycle, not of the whole
  Total,
  Cell,
  Serial,
  Channel,
  Ordinal,  ///< no, number
  State,
  Run,
  Step,
  Extreme,  ///< min, max
  Mean,
  Foreign,  ///< set, limit, ripple, power...: not a reading of the cell's voltage or current
};

[[nodiscard]] bool is_word(std::string_view word, Word group);

/// The words of a heading in lower case: split at what is neither letter nor digit, and at a
/// capital behind a small letter. Letters beyond ASCII are spelt in ASCII, `Ω` as ohm, `µ` as u.
[[nodiscard]] std::vector<std::string> words_of(std::string_view heading);

/// Spelt in ASCII as above, letter case kept: "Temp. (°C)" is "Temp. (degC)".
[[nodiscard]] std::string spelt_in_ascii(std::string_view text);

}  // namespace tideover::cell

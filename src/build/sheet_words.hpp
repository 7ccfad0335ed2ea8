/// The words, keys and limits of a sheet's own tables, for its reader and its schema alike.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "part/description.hpp"

namespace tideover::build {

/// In the order of Change::Mains.
[[nodiscard]] const std::vector<std::string>& mains_words();
/// In the order of Until, without Until::Time.
[[nodiscard]] const std::vector<std::string>& until_words();
[[nodiscard]] const std::vector<std::string>& sheet_keys();  ///< tables of the sheet
[[nodiscard]] const std::vector<std::string>& stretch_keys();
/// `lasts` and `ambient` of a stretch, `charge` and `temperature` of a start.
[[nodiscard]] const part::AmountField& stretch_length();
[[nodiscard]] const part::AmountField& stretch_ambient();
[[nodiscard]] const part::AmountField& start_charge();
[[nodiscard]] const part::AmountField& start_temperature();

inline constexpr int highest_position = 6;   ///< of a switch
inline constexpr int most_repeats = 100000;  ///< of a timeline
inline constexpr std::size_t most_stretches = 10000;
inline constexpr std::size_t most_joined = 100;  ///< terminals of one join

/// The pattern of a name; see SheetReading::check_name.
inline constexpr const char* name_pattern = "^[A-Za-z0-9][A-Za-z0-9_-]{0,39}$";
/// The pattern of `pack.plus`.
inline constexpr const char* terminal_pattern = "^[^.]+\\.[^.]+$";

}  // namespace tideover::build

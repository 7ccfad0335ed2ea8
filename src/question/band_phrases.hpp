/// What bands, needs and the values behind them are called, on the terminal and on paper.
#pragma once

#include <string>

#include "question/bands.hpp"

namespace tideover::question {

/// "carried", "cut off", "recharge", "margin", "extreme": for programs.
[[nodiscard]] std::string_view in_words(BandKey::Sort sort);
/// "outlast", "recharge", "service", "life", "no harm", "all": for programs.
[[nodiscard]] std::string_view in_words(NeedKey::Need need);

/// "Every device carried for", "mains24: output current, highest", "Charge voltage of a cell:
/// charger, margin".
[[nodiscard]] std::string band_title(const BandKey& key);
/// "Every device is carried for as long as asked".
[[nodiscard]] std::string need_title(NeedKey::Need need);
/// Under which of the two circumstances; empty where it is about both.
[[nodiscard]] std::string under_words(const Bands& bands, const BandKey& key);
[[nodiscard]] std::string under_words(const Bands& bands, const NeedKey& key);

/// What a band's numbers measure.
[[nodiscard]] quantity::Measure measure_of_band(const Bands& bands, const BandKey& key);
/// "5 h 10 min", "-12 %", "never".
[[nodiscard]] std::string show_of_band(const Bands& bands, const BandKey& key, double value_si);

/// "98.4 % (97.9 % to 98.9 %)"; all or none of the draws: "all 1024 draws (more than 99.6 %)".
[[nodiscard]] std::string chance_words(const Chance& chance, std::uint64_t draws);

/// What some draws break, by how many draws: the rule with its part, and how often and how far.
struct BrokenWords {
  std::string title;
  std::string words;
  double draws_share = 0.0;
};
/// Most often first.
[[nodiscard]] std::vector<BrokenWords> broken_rules(const Bands& bands);

/// How many draws, and why no more.
[[nodiscard]] std::string draws_words(const Bands& bands);
/// Of which values they were, and which were held.
[[nodiscard]] std::string values_words(const Bands& bands);
/// A share of the width with twice its standard error: "34 % (+/- 7)", "none".
[[nodiscard]] std::string width_words(double share, double error_share);
/// "Measure pack.cell.capacity: ... falls from 5 h to 7 h to about 5 h 40 min to 6 h 20 min.";
/// empty without advice.
[[nodiscard]] std::string advice_words(const Bands& bands);

}  // namespace tideover::question

/// How sure a share is that was counted, and a quantile that was read from sorted numbers.
#pragma once

#include <cstdint>

namespace tideover::numeric {

struct Proportion {
  double low;
  double estimate;
  double high;
};

/// The probability behind `hits` of `trials` independent draws, with its two-sided confidence
/// interval: never narrower than `confidence` promises. 0 <= hits <= trials, trials > 0,
/// 0 < confidence < 1. Source: Clopper and Pearson, Biometrika 26 (1934) 404. Evenly spread points
/// scatter less than independent draws, so that the interval errs to the safe side for them.
[[nodiscard]] Proportion proportion_of(std::uint64_t hits, std::uint64_t trials,
                                       double confidence = 0.95);

struct Ranks {
  std::uint64_t low;
  std::uint64_t high;
  bool operator==(const Ranks&) const = default;
};

/// Between which of `count` sorted independent numbers the quantile `p` lies with at least
/// `confidence`, whatever their distribution; ranks count from 1. Too few numbers give the
/// outermost ranks, which then promise less. count > 0, 0 < p < 1. Source: David and Nagaraja,
/// Order Statistics, 3rd ed. 2003, section 7.1 (from memory).
[[nodiscard]] Ranks quantile_ranks(std::uint64_t count, double p, double confidence = 0.95);

}  // namespace tideover::numeric

/// What many draws came to, counted so that partial tallies add up to exactly what one would be,
/// whoever made which draw.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <utility>

#include "numeric/binomial.hpp"
#include "numeric/buckets.hpp"
#include "question/band_draw.hpp"

namespace tideover::question {

/// Draws belong in turn to this many independently scrambled sets of points; how much these
/// disagree tells how sure the whole is.
inline constexpr std::size_t replicates = 8;
/// Of this many first draws the times are kept singly, to see which values they follow.
inline constexpr std::uint64_t pilot_draws = 256;

/// Share of the draws, 0 to 1, with its 95 % confidence interval.
using Chance = numeric::Proportion;

/// P5, P50 and P95 of the draws, each with a 95 % confidence interval, and the extremes.
struct Band {
  struct Quantile {
    double value_si = 0.0;
    double low_si = 0.0;  ///< of its confidence interval
    double high_si = 0.0;
  };
  std::uint64_t draws = 0;
  Quantile p5;
  Quantile p50;
  Quantile p95;
  double lowest_si = 0.0;
  double highest_si = 0.0;
};

class BandTally {
 public:
  struct Met {
    std::uint64_t met = 0;
    std::uint64_t of = 0;
    bool operator==(const Met&) const = default;
  };
  /// Carried and recharge under both circumstances; empty: never, or not to be had.
  struct Pilot {
    std::array<std::optional<double>, 2> carried_si;
    std::array<std::optional<double>, 2> recharge_si;
    bool operator==(const Pilot&) const = default;
  };
  struct Counts {
    std::uint64_t draws = 0;  ///< all, these among them:
    std::uint64_t contradicting = 0;
    std::uint64_t stuck = 0;
    bool operator==(const Counts&) const = default;
  };

  using Numbers = std::map<BandKey, numeric::Buckets>;
  using Needs = std::map<NeedKey, std::array<Met, replicates>>;
  using Pilots = std::map<std::uint64_t, Pilot>;
  using Broken = std::map<BrokenRule, std::uint64_t>;

  BandTally() = default;
  /// As another tally told them.
  BandTally(Counts counts, Numbers numbers, Needs needs, Broken broken, Pilots pilots)
      : counts_(counts),
        numbers_(std::move(numbers)),
        needs_(std::move(needs)),
        broken_(std::move(broken)),
        pilots_(std::move(pilots)) {}

  void add(std::uint64_t draw, const DrawOutcome& outcome);
  void add(const BandTally& others);

  [[nodiscard]] const Counts& counts() const { return counts_; }
  [[nodiscard]] const Numbers& numbers() const { return numbers_; }
  [[nodiscard]] const Needs& needs() const { return needs_; }
  /// How many draws break a rule; of those that were run to the end.
  [[nodiscard]] const Broken& broken() const { return broken_; }
  [[nodiscard]] const Pilots& pilots() const { return pilots_; }

  /// Nothing where no draw came to such a number.
  [[nodiscard]] std::optional<Band> band(const BandKey& key) const;
  [[nodiscard]] std::optional<Chance> chance(const NeedKey& key) const;

  bool operator==(const BandTally&) const = default;

 private:
  Counts counts_;
  Numbers numbers_;
  Needs needs_;
  Broken broken_;
  Pilots pilots_;
};

/// The times that draws are judged by: carried and recharge, worn before as they are.
using MainTimes = std::array<BandKey, 4>;
[[nodiscard]] const MainTimes& main_times();

/// From how many of each replicate's draws met it: the scatter of the replicates, or, where that
/// says nothing, an interval for independent draws (numeric/binomial.hpp).
[[nodiscard]] Chance chance_of(const std::array<BandTally::Met, replicates>& met);

}  // namespace tideover::question

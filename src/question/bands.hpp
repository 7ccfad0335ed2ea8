/// How sure: Monte Carlo over all toleranced values of a build.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "question/band_tally.hpp"
#include "question/width_shares.hpp"

namespace tideover::question {

struct BandSettings {
  /// Exactly so many; left out: until the bands stand still, `most_draws` at most.
  std::optional<std::uint64_t> draws = {};
  std::uint64_t seed = 1;
  /// Draws that may be spent on where the width comes from; left out: about as many as the band
  /// took.
  std::optional<std::uint64_t> width_draws = {};
  unsigned threads = 0;  ///< 0: one a core; the answer does not depend on it
  /// Only draws whose number leaves `share - 1` over when divided by `of_shares`. Then `draws` (or
  /// `most_draws`) of all shares together are made, and nothing is said about widths.
  std::uint64_t share = 1;
  std::uint64_t of_shares = 1;
  run::Settings run = {};
};

inline constexpr std::uint64_t most_draws = 1024;
/// Bands stand still when P5, P50 and P95 of how long loads are carried and of recharging have
/// moved by no more than this part of the median, or of what is asked for, while the number of
/// draws doubled.
inline constexpr double still_share = 0.01;

enum class BandsEnded { AsAsked, StoodStill, AtMost, Stopped };

struct Bands {
  BandInputs inputs;
  std::string timeline;
  std::array<run::Circumstances, 2> circumstances;
  std::vector<WatchedExtreme> watched;  ///< what the extremes among the numbers are
  std::uint64_t seed = 1;
  std::uint64_t draws_meant = 0;  ///< of all shares together
  BandsEnded ended{};
  BandTally tally;
  WidthShares widths;

  [[nodiscard]] bool is_partial() const { return ended == BandsEnded::Stopped; }
};

/// A build without a toleranced value is run once.
[[nodiscard]] Bands bands(const build::Build& build, const BandSettings& settings,
                          base::Progress& progress);

/// What `bands` would have answered if it had made all draws of `tally` itself: of `draws` in all.
[[nodiscard]] Bands bands_from(const build::Build& build, BandTally tally,
                               const BandSettings& settings, base::Progress& progress);

}  // namespace tideover::question

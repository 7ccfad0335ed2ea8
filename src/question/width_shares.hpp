/// Where the width of a band comes from, and which measurement would narrow it most.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "numeric/variance_shares.hpp"
#include "question/band_tally.hpp"

namespace tideover::question {

/// What a part of the width is put down to.
struct WidthGroup {
  std::string words;        ///< a path, "all others", "every value that is assumed"
  std::vector<int> inputs;  ///< random numbers (question/band_inputs.hpp)
  enum class Sort { Single, Others, Origin } sort{};
};

/// Of one band: a share of its variance for each group, in the groups' order.
struct WidthOfBand {
  BandKey band;
  std::vector<numeric::VarianceShare> shares;
};

/// What to measure, and what that would do.
struct WidthAdvice {
  BandKey band;
  std::size_t group = 0;     ///< a single one
  bool is_measured = false;  ///< it was measured already: measure it more exactly
  double from_p5_si = 0.0;
  double from_p95_si = 0.0;
  double to_p5_si = 0.0;  ///< with that value known exactly
  double to_p95_si = 0.0;
};

struct WidthShares {
  std::uint64_t draws = 0;  ///< spent on it
  std::vector<WidthGroup> groups;
  std::vector<WidthOfBand> bands;  ///< those that vary and are never "never"
  std::optional<WidthAdvice> advice;
};

struct WidthSettings {
  std::uint64_t seed = 1;
  std::uint64_t draws = 0;  ///< that may be spent, at least; 0: none
  unsigned threads = 0;
};

/// The pilot draws of `tally` tell which values matter; each of these and all others together are
/// then put to the test. Empty if the user stops it, or where nothing varies.
[[nodiscard]] WidthShares width_shares(const build::Build& build, const BandInputs& inputs,
                                       const BandTrial& trial, const BandTally& tally,
                                       const WidthSettings& settings, base::Progress& progress);

}  // namespace tideover::question

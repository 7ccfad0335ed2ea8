/// The random numbers of every draw.
#pragma once

#include <cstdint>
#include <vector>

#include "numeric/sobol_points.hpp"
#include "question/band_tally.hpp"

namespace tideover::question {

/// Draws take turns among `replicates` independently scrambled sets of points. Any thread may ask.
class BandPoints {
 public:
  BandPoints(std::size_t inputs, std::uint64_t seed);
  /// Each in (0, 1); none where there are no inputs.
  [[nodiscard]] std::vector<double> draw_share(std::uint64_t draw) const;

 private:
  std::size_t inputs_;
  std::vector<numeric::SobolPoints> sets_;
};

/// Seed of one of the replicates; sets of points for other purposes count on from there.
[[nodiscard]] std::uint64_t replicate_seed(std::uint64_t seed, std::uint64_t replicate);

}  // namespace tideover::question

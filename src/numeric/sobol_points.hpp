/// Points that fill the unit cube evenly: Sobol's sequence, scrambled by a seed.
/// Every point is had by its number, whatever was asked before, so that work can be shared out,
/// resumed and added up again with the same result.
///
/// Sequence: Sobol, USSR Comput. Math. Math. Phys. 7 (1967) 86, with the direction numbers of Joe
/// and Kuo, SIAM J. Sci. Comput. 30 (2008) 2635, as Boost.Random holds them; order by Gray code
/// after Antonov and Saleev. Scrambling: a random lower triangular matrix of bits and a random
/// digital shift for each dimension, Matousek, J. Complexity 14 (1998) 527. Each scrambled point
/// is uniform in the cube, so that a mean over any of them is unbiased and scatters from seed to
/// seed; 2^m consecutive points from a multiple of 2^m on remain evenly spread.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace tideover::numeric {

class SobolPoints {
 public:
  static constexpr int most_dimensions = 3600;
  static constexpr int index_bits = 32;  ///< points that can be told apart: 2^32

  /// The plain sequence; point 0 is the corner next to the origin. 1 to `most_dimensions`.
  explicit SobolPoints(int dimensions);
  /// Scrambled. The first dimensions of a longer point are those of a shorter one.
  SobolPoints(int dimensions, std::uint64_t seed);

  [[nodiscard]] int dimensions() const { return static_cast<int>(shift_.size()); }

  /// Fills `u`, as long as there are dimensions, with point `index` < 2^32. Every coordinate is the
  /// middle of a cell 2^-52 wide, never 0 nor 1.
  void point(std::uint64_t index, std::span<double> u) const;

 private:
  void scramble(std::uint64_t seed);

  std::vector<std::uint64_t> direction_;  ///< 52 bits; of one bit of the index for all dimensions
  std::vector<std::uint64_t> shift_;
};

}  // namespace tideover::numeric

#include "numeric/sobol_points.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <random>

#include <boost/random/sobol.hpp>

#include "base/contract.hpp"

namespace tideover::numeric {

namespace {

constexpr int value_bits = 52;
constexpr double cell_width = 0x1p-52;

/// Rows of a lower triangular matrix with ones on its diagonal; row k makes bit k from the top.
using Triangle = std::array<std::uint64_t, value_bits>;

Triangle random_triangle(std::mt19937_64& bits) {
  Triangle rows{};
  for (int k = 0; k < value_bits; ++k) {
    const std::uint64_t diagonal = std::uint64_t{1} << (value_bits - 1 - k);
    const std::uint64_t above = ~(diagonal - 1) & ((std::uint64_t{1} << value_bits) - 1);
    rows[static_cast<std::size_t>(k)] = (bits() & above) | diagonal;
  }
  return rows;
}

std::uint64_t times(const Triangle& rows, std::uint64_t bits) {
  std::uint64_t product = 0;
  for (const std::uint64_t row : rows) {
    product = (product << 1U) | static_cast<std::uint64_t>(std::popcount(row & bits) & 1);
  }
  return product;
}

}  // namespace

SobolPoints::SobolPoints(int dimensions) {
  TIDEOVER_EXPECT(dimensions >= 1 && dimensions <= most_dimensions, "dimensions of a point");
  const auto width = static_cast<std::size_t>(dimensions);
  boost::random::sobol sequence(width);
  direction_.resize(width * index_bits);
  shift_.assign(width, 0);
  // Point 2^k is by Gray code the sum of directions k and k - 1.
  std::vector<std::uint64_t> before(width, 0);
  for (std::size_t k = 0; k < index_bits; ++k) {
    sequence.seed((std::uint64_t{1} << k) - 1);
    for (std::size_t d = 0; d < width; ++d) {
      before[d] ^= sequence();
      direction_[k * width + d] = before[d] >> (64U - value_bits);
    }
  }
}

SobolPoints::SobolPoints(int dimensions, std::uint64_t seed) : SobolPoints(dimensions) {
  scramble(seed);
}

void SobolPoints::scramble(std::uint64_t seed) {
  std::mt19937_64 bits(seed);
  for (std::size_t d = 0; d < shift_.size(); ++d) {
    const Triangle matrix = random_triangle(bits);
    for (std::size_t k = 0; k < index_bits; ++k) {
      std::uint64_t& direction = direction_[k * shift_.size() + d];
      direction = times(matrix, direction);
    }
    shift_[d] = bits() >> (64U - value_bits);
  }
}

void SobolPoints::point(std::uint64_t index, std::span<double> u) const {
  TIDEOVER_EXPECT(index >> index_bits == 0, "a Sobol point beyond the last");
  TIDEOVER_EXPECT(u.size() == shift_.size(), "a Sobol point of other dimensions");
  std::vector<std::uint64_t> sum = shift_;
  std::uint64_t code = index ^ (index >> 1U);
  while (code != 0) {
    const std::uint64_t* direction =
        direction_.data() + static_cast<std::size_t>(std::countr_zero(code)) * sum.size();
    for (std::size_t d = 0; d < sum.size(); ++d) sum[d] ^= direction[d];
    code &= code - 1;
  }
  std::ranges::transform(sum, u.begin(), [](std::uint64_t bits) {
    return (static_cast<double>(bits) + 0.5) * cell_width;
  });
}

}  // namespace tideover::numeric

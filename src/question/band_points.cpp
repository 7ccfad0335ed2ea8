#include "question/band_points.hpp"

namespace tideover::question {

std::uint64_t replicate_seed(std::uint64_t seed, std::uint64_t replicate) {
  constexpr std::uint64_t purposes = 1000;  // room between one seed's replicates and the next's
  return seed * purposes + replicate;
}

BandPoints::BandPoints(std::size_t inputs, std::uint64_t seed) : inputs_(inputs) {
  if (inputs == 0) return;
  for (std::size_t r = 0; r < replicates; ++r) {
    sets_.emplace_back(static_cast<int>(inputs), replicate_seed(seed, r));
  }
}

std::vector<double> BandPoints::draw_share(std::uint64_t draw) const {
  std::vector<double> u(inputs_);
  if (inputs_ > 0) sets_[draw % replicates].point(draw / replicates, u);
  return u;
}

}  // namespace tideover::question

#include "support/random_share.hpp"

#include <algorithm>
#include <numeric>

#include <doctest/doctest.h>

namespace tideover::test {

std::vector<std::uint64_t> seeds(std::uint64_t first, std::uint64_t last) {
  constexpr std::uint64_t share_percent = TIDEOVER_RANDOM_SHARE;
  static_assert(share_percent > 0 && share_percent <= 100);
  constexpr std::uint64_t least = 2;
  const std::uint64_t all = last - first + 1;
  const std::uint64_t count = std::min(all, std::max(least, all * share_percent / 100));
  if (count < all) MESSAGE(count << " of " << all << " random builds: this build is a slow one");
  std::vector<std::uint64_t> chosen(count);
  std::iota(chosen.begin(), chosen.end(), first);
  return chosen;
}

}  // namespace tideover::test

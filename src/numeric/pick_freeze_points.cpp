#include "numeric/pick_freeze_points.hpp"

#include <algorithm>
#include <utility>

#include "base/contract.hpp"

namespace tideover::numeric {

PickFreezePoints::PickFreezePoints(int inputs, std::vector<std::vector<int>> groups,
                                   std::uint64_t seed)
    : groups_(std::move(groups)), points_(2 * inputs, seed) {
  for (const std::vector<int>& group : groups_) {
    const bool is_sound =
        std::ranges::all_of(group, [&](int input) { return input >= 0 && input < inputs; });
    TIDEOVER_EXPECT(is_sound && !group.empty(), "groups of inputs that there are");
  }
}

/// The inputs of A, then those of B.
std::vector<double> PickFreezePoints::both(std::uint64_t index) const {
  std::vector<double> u(static_cast<std::size_t>(points_.dimensions()));
  points_.point(index, u);
  return u;
}

void PickFreezePoints::at_a(std::uint64_t index, std::span<double> u) const {
  const std::vector<double> point = both(index);
  std::copy_n(point.begin(), inputs(), u.begin());
}

void PickFreezePoints::at_b(std::uint64_t index, std::span<double> u) const {
  const std::vector<double> point = both(index);
  std::copy_n(point.begin() + inputs(), inputs(), u.begin());
}

void PickFreezePoints::at_mixed(int group, std::uint64_t index, std::span<double> u) const {
  TIDEOVER_EXPECT(group >= 0 && group < groups(), "a group of inputs");
  const std::vector<double> point = both(index);
  std::copy_n(point.begin(), inputs(), u.begin());
  for (const int input : groups_[static_cast<std::size_t>(group)]) {
    u[static_cast<std::size_t>(input)] = point[static_cast<std::size_t>(input + inputs())];
  }
}

}  // namespace tideover::numeric

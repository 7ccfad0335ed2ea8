#include "numeric/pick_freeze_points.hpp"

#include <algorithm>
#include <utility>

#include "base/contract.hpp"

namespace tideover::numeric {

namespace {

bool is_gapless(const std::vector<int>& group_of_input, int groups) {
  std::vector<bool> seen(static_cast<std::size_t>(groups), false);
  for (const int group : group_of_input) {
    if (group < 0) return false;
    seen[static_cast<std::size_t>(group)] = true;
  }
  return std::ranges::all_of(seen, [](bool is_there) { return is_there; });
}

}  // namespace

PickFreezePoints::PickFreezePoints(std::vector<int> group_of_input, std::uint64_t seed)
    : group_of_input_(std::move(group_of_input)),
      points_(2 * static_cast<int>(group_of_input_.size()), seed) {
  groups_ = *std::ranges::max_element(group_of_input_) + 1;
  TIDEOVER_EXPECT(is_gapless(group_of_input_, groups_), "groups counted from nought");
}

void PickFreezePoints::at_a(std::uint64_t index, std::span<double> u) const {
  std::vector<double> both(2 * group_of_input_.size());
  points_.point(index, both);
  std::copy_n(both.begin(), u.size(), u.begin());
}

void PickFreezePoints::at_b(std::uint64_t index, std::span<double> u) const {
  std::vector<double> both(2 * group_of_input_.size());
  points_.point(index, both);
  std::copy_n(both.begin() + inputs(), u.size(), u.begin());
}

void PickFreezePoints::at_mixed(int group, std::uint64_t index, std::span<double> u) const {
  TIDEOVER_EXPECT(group >= 0 && group < groups_, "a group of inputs");
  std::vector<double> both(2 * group_of_input_.size());
  points_.point(index, both);
  for (std::size_t k = 0; k < group_of_input_.size(); ++k) {
    u[k] = group_of_input_[k] == group ? both[k + group_of_input_.size()] : both[k];
  }
}

}  // namespace tideover::numeric

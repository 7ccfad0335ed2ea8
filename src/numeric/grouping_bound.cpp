#include "numeric/grouping_bound.hpp"

#include <algorithm>
#include <functional>

#include "base/contract.hpp"

namespace tideover::numeric {

namespace {

/// Sums of the first so many of a list.
class RunningSum {
 public:
  explicit RunningSum(const std::vector<double>& numbers) {
    sum_.reserve(numbers.size() + 1);
    for (const double number : numbers) sum_.push_back(sum_.back() + number);
  }
  /// Of `count` from `first` on.
  [[nodiscard]] double of(std::size_t first, std::size_t count) const {
    return sum_[first + count] - sum_[first];
  }

 private:
  std::vector<double> sum_{0.0};
};

double without_the_best(const RunningSum& sum, std::size_t groups, std::size_t each) {
  double least = sum.of(0, groups * each) / static_cast<double>(groups);
  for (std::size_t j = 1; j < groups; ++j) {
    const std::size_t left = groups - j;
    least = std::min(least, sum.of(j, left * each) / static_cast<double>(left));
  }
  return least;
}

double with_the_worst(const RunningSum& sum, std::size_t groups, std::size_t each) {
  const std::size_t count = groups * each;
  double least = sum.of(0, count) / static_cast<double>(groups);
  for (std::size_t i = 1; i < count; ++i) {
    const double worst = sum.of(count - i, i);
    double most = 0.0;
    for (std::size_t g = (i + each - 1) / each; g <= std::min(i, groups); ++g) {
      most = std::max(most, (worst + sum.of(0, g * each - i)) / static_cast<double>(g));
    }
    least = std::min(least, most);
  }
  return least;
}

double folded(const std::vector<double>& falling) {
  double least = falling.front() + falling.back();
  for (std::size_t i = 0; i < falling.size() / 2; ++i) {
    least = std::min(least, falling[i] + falling[falling.size() - 1 - i]);
  }
  return least;
}

}  // namespace

double weakest_group_bound(std::vector<double> worth, std::size_t groups, std::size_t each) {
  TIDEOVER_EXPECT(groups >= 1 && each >= 1 && worth.size() >= groups * each,
                  "enough items for the groups");
  std::ranges::sort(worth, std::greater<>());
  worth.resize(groups * each);
  const RunningSum sum(worth);
  const double least =
      std::min(without_the_best(sum, groups, each), with_the_worst(sum, groups, each));
  return each == 2 ? std::min(least, folded(worth)) : least;
}

}  // namespace tideover::numeric

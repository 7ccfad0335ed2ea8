#include "numeric/grouping_dealt.hpp"

#include <algorithm>
#include <limits>
#include <utility>

namespace tideover::numeric {

Dealt::Dealt(const GroupingProblem& problem, std::vector<std::size_t> item_at)
    : problem_(&problem), item_at_(std::move(item_at)) {
  worth_at_.reserve(item_at_.size());
  for (const std::size_t item : item_at_) worth_at_.push_back(problem.worth[item]);
  sums_.assign(problem.bands.size() + 1, std::vector<double>(problem.groups, 0.0));
  extremes_.resize(sums_.size());
  for (std::size_t q = 0; q < sums_.size(); ++q) {
    for (std::size_t place = 0; !is_spare(place) && place < places(); ++place) {
      sums_[q][group_of(place)] += weight(q)[item_at_[place]];
    }
    find_extremes(q);
  }
  for (std::size_t b = 0; b < problem.bands.size(); ++b) {
    beyond_ +=
        beyond_band(problem.bands[b], sums_[b + 1][lowest_of(b)], sums_[b + 1][highest_of(b)]);
  }
}

void Dealt::find_extremes(std::size_t quantity) {
  const std::vector<double>& sum = sums_[quantity];
  Extremes& found = extremes_[quantity];
  found.count = 0;
  for (std::size_t g = 0; g < sum.size(); ++g) {
    const std::size_t known = std::min<std::size_t>(found.count, 2);
    found.count = known + 1;
    std::size_t low = known;
    for (; low > 0 && sum[g] < sum[found.lowest[low - 1]]; --low) {
      found.lowest[low] = found.lowest[low - 1];
    }
    std::size_t high = known;
    for (; high > 0 && sum[g] > sum[found.highest[high - 1]]; --high) {
      found.highest[high] = found.highest[high - 1];
    }
    found.lowest[low] = g;
    found.highest[high] = g;
  }
}

double Dealt::beyond_with(std::size_t band, std::size_t place, std::size_t other) const {
  const std::size_t q = band + 1;
  const std::vector<double>& of = weight(q);
  const double more = of[item_at_[other]] - of[item_at_[place]];
  constexpr std::size_t none = std::numeric_limits<std::size_t>::max();
  const std::size_t first = is_spare(place) ? none : group_of(place);
  const std::size_t second = is_spare(other) ? none : group_of(other);
  double least = std::numeric_limits<double>::infinity();
  double largest = -least;
  const auto see = [&](double sum) {
    least = std::min(least, sum);
    largest = std::max(largest, sum);
  };
  if (first != none) see(sums_[q][first] + more);
  if (second != none) see(sums_[q][second] - more);
  const Extremes& ends = extremes_[q];
  for (std::size_t k = 0; k < ends.count; ++k) {
    if (ends.lowest[k] != first && ends.lowest[k] != second) see(sums_[q][ends.lowest[k]]);
    if (ends.highest[k] != first && ends.highest[k] != second) see(sums_[q][ends.highest[k]]);
  }
  return beyond_band(problem_->bands[band], least, largest);
}

double Dealt::beyond_after(std::size_t place, std::size_t other) const {
  double beyond = 0.0;
  for (std::size_t b = 0; b < problem_->bands.size(); ++b) beyond += beyond_with(b, place, other);
  return beyond;
}

void Dealt::exchange(std::size_t place, std::size_t other) {
  beyond_ = beyond_after(place, other);
  std::swap(item_at_[place], item_at_[other]);
  std::swap(worth_at_[place], worth_at_[other]);
  const auto add_up = [&](std::size_t q, std::size_t at) {
    if (is_spare(at)) return;
    // Added up anew, so that no rounding gathers over millions of exchanges.
    const std::size_t begin = group_of(at) * problem_->each;
    double sum = 0.0;
    for (std::size_t k = 0; k < problem_->each; ++k) sum += weight(q)[item_at_[begin + k]];
    sums_[q][group_of(at)] = sum;
  };
  for (std::size_t q = 0; q < sums_.size(); ++q) {
    add_up(q, place);
    add_up(q, other);
    find_extremes(q);
  }
}

Grouping Dealt::grouping() const {
  Grouping made;
  made.groups.resize(problem_->groups);
  for (std::size_t place = 0; place < places(); ++place) {
    if (!is_spare(place)) made.groups[group_of(place)].push_back(item_at_[place]);
  }
  made.keeps_bands = beyond_ <= 0.0;
  return made;
}

}  // namespace tideover::numeric

#include "numeric/grouping.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

#include "base/contract.hpp"
#include "numeric/grouping_bound.hpp"
#include "numeric/grouping_exchange.hpp"
#include "numeric/grouping_exhaustion.hpp"

namespace tideover::numeric {

namespace {

/// Rounding of sums must not break a band that is exactly kept.
constexpr double band_rounding = 1e-9;
/// Exchanges looked at before a lot is gone through whole.
constexpr long effort_small = 200'000;
/// Choices with which a lot too large to be promised a proof is tried nevertheless.
constexpr long steps_tried = 5'000'000;

void check(const GroupingProblem& problem) {
  const std::size_t count = problem.worth.size();
  TIDEOVER_EXPECT(problem.groups >= 1 && problem.each >= 1, "groups of something");
  TIDEOVER_EXPECT(count >= problem.groups * problem.each, "enough items for the groups");
  const auto is_fit = [](double number) { return number >= 0.0 && number < 1e300; };
  TIDEOVER_EXPECT(std::ranges::all_of(problem.worth, is_fit), "worths from 0 up");
  for (const EvenBand& band : problem.bands) {
    TIDEOVER_EXPECT(band.weight.size() == count, "a weight for each item");
    TIDEOVER_EXPECT(std::ranges::all_of(band.weight, is_fit), "weights from 0 up");
    TIDEOVER_EXPECT(band.most > 0.0, "a band that allows something");
  }
}

/// Order, spares and sums of what a search has made.
void complete(const GroupingProblem& problem, Grouping& made) {
  std::vector<char> is_dealt(problem.worth.size(), 0);
  for (auto& group : made.groups) {
    std::ranges::sort(group);
    for (const std::size_t item : group) is_dealt[item] = 1;
  }
  std::ranges::sort(made.groups);
  made.spares.clear();
  for (std::size_t item = 0; item < is_dealt.size(); ++item) {
    if (is_dealt[item] == 0) made.spares.push_back(item);
  }
  const std::vector<double> sums = group_sums(made.groups, problem.worth);
  const auto [least, largest] = std::ranges::minmax_element(sums);
  made.weakest = *least;
  made.spread = *largest - *least;
  made.bound = weakest_group_bound(problem.worth, problem.groups, problem.each);
}

bool keeps_bands(const GroupingProblem& problem, const Grouping& made) {
  return std::ranges::all_of(problem.bands, [&](const EvenBand& band) {
    const std::vector<double> sums = group_sums(made.groups, band.weight);
    const auto [least, largest] = std::ranges::minmax_element(sums);
    return beyond_band(band, *least, *largest) <= 0.0;
  });
}

}  // namespace

double beyond_band(const EvenBand& band, double least, double largest) {
  const double allowed = band.measure == EvenBand::Measure::Ratio ? band.most * least : band.most;
  const double apart = largest - least;
  if (apart <= allowed + band_rounding * largest) return 0.0;
  return allowed > 0.0 ? apart / allowed - 1.0 : std::numeric_limits<double>::max();
}

std::vector<double> group_sums(const std::vector<std::vector<std::size_t>>& groups,
                               const std::vector<double>& weight) {
  std::vector<double> sums;
  sums.reserve(groups.size());
  for (const auto& group : groups) {
    sums.push_back(std::accumulate(group.begin(), group.end(), 0.0,
                                   [&](double sum, std::size_t k) { return sum + weight[k]; }));
  }
  return sums;
}

Grouping in_order(const GroupingProblem& problem) {
  check(problem);
  Grouping made;
  made.groups.resize(problem.groups);
  for (std::size_t item = 0; item < problem.groups * problem.each; ++item) {
    made.groups[item / problem.each].push_back(item);
  }
  complete(problem, made);
  made.keeps_bands = keeps_bands(problem, made);
  return made;
}

Grouping group_evenly(const GroupingProblem& problem, base::Progress& progress) {
  check(problem);
  const std::size_t count = problem.worth.size();
  const double bound = weakest_group_bound(problem.worth, problem.groups, problem.each);
  const bool is_small = count <= most_items_exhausted;
  // A larger lot is first looked at as briefly as a small one, for exhaustion to begin with.
  Grouping made = exchange_items(problem, bound, effort_small, progress);
  complete(problem, made);
  if (count <= most_items_searched && !made.was_stopped) {
    made = exhaust(problem, std::move(made),
                   is_small ? std::numeric_limits<long>::max() : steps_tried, progress);
    complete(problem, made);
  }
  if (is_small || made.is_best || made.bands_impossible || made.was_stopped) return made;
  Grouping longer = exchange_items(problem, bound, problem.effort, progress);
  complete(problem, longer);
  const bool is_better = longer.keeps_bands != made.keeps_bands
                             ? longer.keeps_bands
                             : longer.weakest > made.weakest ||
                                   (longer.weakest == made.weakest && longer.spread < made.spread);
  return is_better ? longer : made;
}

}  // namespace tideover::numeric

#include "numeric/grouping_exhaustion.hpp"

#include <algorithm>
#include <bit>
#include <cstdint>
#include <limits>
#include <numeric>
#include <utility>

#include "base/contract.hpp"

namespace tideover::numeric {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
/// Choices between two looks at whether to stop.
constexpr long steps_between_looks = 1L << 14;

/// Smallest and largest sum of the finished groups.
struct Reach {
  double least = infinite;
  double largest = -infinite;
  [[nodiscard]] Reach with(double sum) const {
    return {std::min(least, sum), std::max(largest, sum)};
  }
};

class Exhaustion {
 public:
  Exhaustion(const GroupingProblem& problem, long most_steps, base::Progress& progress)
      : problem_(problem), steps_left_(most_steps), progress_(progress) {
    order_.resize(problem.worth.size());
    std::iota(order_.begin(), order_.end(), std::size_t{0});
    std::ranges::stable_sort(
        order_, [&](std::size_t a, std::size_t b) { return problem.worth[a] > problem.worth[b]; });
    worth_.reserve(order_.size());
    for (const std::size_t item : order_) worth_.push_back(problem.worth[item]);
    equal_ = grouping_resolution * worth_.front();
    for (std::size_t k = 1; k < order_.size(); ++k) {
      if (alike(order_[k], order_[k - 1])) twins_ |= bit(k);
    }
    group_.resize(problem.groups);
    sums_.assign(problem.bands.size(), 0.0);
    reach_.assign((problem.groups + 1) * problem.bands.size(), {});
  }

  void know(double weakest, double spread) {
    has_best_ = true;
    weakest_ = weakest;
    spread_ = spread;
  }
  void run() { next_group(0, {}, 0, order_.size() - problem_.groups * problem_.each); }

  [[nodiscard]] bool is_complete() const { return !has_given_up_; }
  [[nodiscard]] bool was_stopped() const { return was_stopped_; }
  [[nodiscard]] bool has_best() const { return has_best_; }
  /// Better than what was known; empty if nothing is.
  [[nodiscard]] const std::vector<std::uint64_t>& found() const { return found_; }
  [[nodiscard]] const std::vector<std::size_t>& order() const { return order_; }

 private:
  [[nodiscard]] static std::uint64_t bit(std::size_t k) { return std::uint64_t{1} << k; }

  [[nodiscard]] bool alike(std::size_t a, std::size_t b) const {
    if (problem_.worth[a] != problem_.worth[b]) return false;
    return std::ranges::all_of(
        problem_.bands, [&](const EvenBand& band) { return band.weight[a] == band.weight[b]; });
  }

  /// Counts a choice; false once there have been enough.
  bool go_on() {
    if (has_given_up_) return false;
    --steps_left_;
    if (steps_left_ < 0) {
      has_given_up_ = true;
    } else if (steps_left_ % steps_between_looks == 0 && progress_.stop_asked()) {
      was_stopped_ = has_given_up_ = true;
    }
    return !has_given_up_;
  }

  /// Whether a dealing with no weakest group above `most` and with a group of `largest` can be no
  /// better than the best known.
  [[nodiscard]] bool is_hopeless(double most, double largest) const {
    if (!has_best_ || most > weakest_ + equal_) return false;
    return most < weakest_ - equal_ || largest - most >= spread_ - equal_;
  }

  /// Mean of the groups still to be made, of the best items that are free.
  [[nodiscard]] double best_mean(std::uint64_t gone, std::size_t groups) const {
    double sum = 0.0;
    std::size_t count = groups * problem_.each;
    for (std::size_t k = 0; count > 0; ++k) {
      if ((gone & bit(k)) != 0) continue;
      sum += worth_[k];
      --count;
    }
    return sum / static_cast<double>(groups);
  }

  /// `gone` are items in groups or passed over as leaders; `idle` may still be passed over.
  void next_group(std::size_t made, Reach reach, std::uint64_t gone, std::size_t idle) {
    if (made == problem_.groups) {
      has_best_ = true;
      weakest_ = reach.least;
      spread_ = reach.largest - reach.least;
      found_ = group_;
      return;
    }
    for (;; --idle) {
      if (!go_on()) return;
      const double most = std::min(reach.least, best_mean(gone, problem_.groups - made));
      if (is_hopeless(most, reach.largest)) return;
      const auto leader = static_cast<std::size_t>(std::countr_one(gone));
      add(leader, 1.0);
      fill(made, reach, gone, idle, {bit(leader), leader, 1, worth_[leader]});
      add(leader, -1.0);
      if (idle == 0) return;
      gone |= bit(leader);
    }
  }

  struct Filling {
    std::uint64_t items = 0;
    std::size_t last = 0;
    std::size_t count = 0;
    double sum = 0.0;
  };

  void fill(std::size_t made, Reach reach, std::uint64_t gone, std::size_t idle,
            const Filling& so_far) {
    if (so_far.count == problem_.each) {
      finish(made, reach, gone, idle, so_far);
      return;
    }
    const std::size_t missing = problem_.each - so_far.count;
    for (std::size_t k = so_far.last + 1; k + missing <= order_.size(); ++k) {
      if ((gone & bit(k)) != 0) continue;
      // No later item is better than this one.
      const double most =
          std::min(reach.least, so_far.sum + static_cast<double>(missing) * worth_[k]);
      if (is_hopeless(most, reach.largest)) return;
      const bool has_free_twin =
          (twins_ & bit(k)) != 0 && (gone & bit(k - 1)) == 0 && (so_far.items & bit(k - 1)) == 0;
      if (has_free_twin) continue;
      if (!go_on()) return;
      add(k, 1.0);
      fill(made, reach, gone, idle,
           {so_far.items | bit(k), k, so_far.count + 1, so_far.sum + worth_[k]});
      add(k, -1.0);
    }
  }

  void finish(std::size_t made, Reach reach, std::uint64_t gone, std::size_t idle,
              const Filling& group) {
    const Reach now = reach.with(group.sum);
    if (is_hopeless(now.least, now.largest)) return;
    const std::size_t count = problem_.bands.size();
    for (std::size_t b = 0; b < count; ++b) {
      Reach& after = reach_[(made + 1) * count + b];
      after = reach_[made * count + b].with(sums_[b]);
      if (beyond_band(problem_.bands[b], after.least, after.largest) > 0.0) return;
    }
    group_[made] = group.items;
    std::vector<double> sums(count, 0.0);
    std::swap(sums, sums_);
    next_group(made + 1, now, gone | group.items, idle);
    std::swap(sums, sums_);
  }

  /// To the sums of the group being filled.
  void add(std::size_t k, double sign) {
    for (std::size_t b = 0; b < sums_.size(); ++b) {
      sums_[b] += sign * problem_.bands[b].weight[order_[k]];
    }
  }

  const GroupingProblem& problem_;
  long steps_left_;
  base::Progress& progress_;
  std::vector<std::size_t> order_;  ///< items by falling worth; all below counts in this order
  std::vector<double> worth_;
  std::uint64_t twins_ = 0;  ///< items just like the one before them
  double equal_ = 0.0;
  std::vector<std::uint64_t> group_;
  std::vector<double> sums_;  ///< of the bands' weights over the group being filled
  std::vector<Reach> reach_;  ///< of the bands' sums: one a band, after 0, 1, ... groups
  bool has_best_ = false;
  double weakest_ = 0.0;
  double spread_ = 0.0;
  std::vector<std::uint64_t> found_;
  bool has_given_up_ = false;
  bool was_stopped_ = false;
};

}  // namespace

Grouping exhaust(const GroupingProblem& problem, Grouping known, long most_steps,
                 base::Progress& progress) {
  TIDEOVER_EXPECT(problem.worth.size() <= most_items_searched, "one bit an item");
  Exhaustion search(problem, most_steps, progress);
  if (known.keeps_bands) search.know(known.weakest, known.spread);
  search.run();
  if (!search.found().empty()) {
    known.keeps_bands = true;
    known.groups.clear();
    for (const std::uint64_t items : search.found()) {
      auto& group = known.groups.emplace_back();
      for (std::size_t k = 0; k < search.order().size(); ++k) {
        if (((items >> k) & 1U) != 0) group.push_back(search.order()[k]);
      }
    }
  }
  known.is_best = search.is_complete() && search.has_best();
  known.bands_impossible = search.is_complete() && !search.has_best();
  known.was_stopped = known.was_stopped || search.was_stopped();
  return known;
}

}  // namespace tideover::numeric

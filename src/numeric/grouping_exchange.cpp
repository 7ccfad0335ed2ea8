#include "numeric/grouping_exchange.hpp"

#include <algorithm>
#include <numeric>
#include <optional>
#include <random>
#include <utility>

#include "numeric/grouping_dealt.hpp"

namespace tideover::numeric {

namespace {

/// What each band adds to the cost of looking at an exchange: few are looked at so closely.
constexpr long cost_of_a_band = 1;
/// Exchanges by chance between two searches.
constexpr std::size_t shaken_places = 3;

using Places = std::pair<std::size_t, std::size_t>;

/// Falling order, each to the group that holds least so far and has room.
std::vector<std::size_t> dealt_falling(const GroupingProblem& problem) {
  std::vector<std::size_t> falling(problem.worth.size());
  std::iota(falling.begin(), falling.end(), std::size_t{0});
  std::ranges::stable_sort(
      falling, [&](std::size_t a, std::size_t b) { return problem.worth[a] > problem.worth[b]; });
  std::vector<std::size_t> item_at = falling;
  std::vector<double> sum(problem.groups, 0.0);
  std::vector<std::size_t> filled(problem.groups, 0);
  for (std::size_t k = 0; k < problem.groups * problem.each; ++k) {
    std::size_t to = problem.groups;
    for (std::size_t g = 0; g < problem.groups; ++g) {
      if (filled[g] < problem.each && (to == problem.groups || sum[g] < sum[to])) to = g;
    }
    item_at[to * problem.each + filled[to]] = falling[k];
    sum[to] += problem.worth[falling[k]];
    ++filled[to];
  }
  return item_at;
}

std::vector<std::size_t> as_they_come(const GroupingProblem& problem) {
  std::vector<std::size_t> item_at(problem.worth.size());
  std::iota(item_at.begin(), item_at.end(), std::size_t{0});
  return item_at;
}

class Search {
 public:
  Search(const GroupingProblem& problem, double bound, long effort, base::Progress& progress)
      : problem_(problem),
        bound_(bound),
        effort_(effort),
        left_(effort),
        cost_(1 + cost_of_a_band * static_cast<long>(problem.bands.size())),
        equal_(grouping_resolution * *std::ranges::max_element(problem.worth)),
        progress_(progress),
        best_(problem, as_they_come(problem)) {}

  Grouping run() {
    Dealt first(problem_, dealt_falling(problem_));
    settle(first);
    // In order: no better as a rule, but what bands forbid elsewhere may be kept there.
    settle(best_);
    if (is_no_worse(first, best_)) best_ = first;
    while (!is_over()) {
      Dealt next = best_;
      shake(next);
      settle(next);
      if (is_no_worse(next, best_)) best_ = std::move(next);
    }
    Grouping made = best_.grouping();
    made.was_stopped = was_stopped_;
    return made;
  }

 private:
  [[nodiscard]] bool is_over() {
    if (left_ <= 0 || was_stopped_) return true;
    progress_.report(1.0 - static_cast<double>(left_) / static_cast<double>(effort_),
                     "matching cells");
    was_stopped_ = progress_.stop_asked();
    const bool is_even = best_.spread() <= equal_ &&
                         best_.sum(best_.weakest()) >= bound_ - equal_ && best_.beyond() <= 0.0;
    return was_stopped_ || is_even;
  }

  [[nodiscard]] bool is_no_worse(const Dealt& one, const Dealt& other) const {
    if (one.beyond() != other.beyond()) return one.beyond() < other.beyond();
    const double weakest = one.sum(one.weakest()) - other.sum(other.weakest());
    if (weakest > equal_ || weakest < -equal_) return weakest > 0.0;
    return one.spread() <= other.spread();
  }

  void settle(Dealt& dealt) {
    while (left_ > 0 && dealt.beyond() > 0.0 && mend_bands(dealt)) {
    }
    while (left_ > 0 && (raise_weakest(dealt) || lower_strongest(dealt))) {
    }
  }

  void shake(Dealt& dealt) {
    // One end in the weakest or the strongest group, which an exchange must touch to matter.
    for (std::size_t k = 0; k < shaken_places; ++k) {
      const std::size_t group = random_() % 2 == 0 ? dealt.weakest() : dealt.strongest();
      const std::size_t place = group * problem_.each + random_() % problem_.each;
      const std::size_t other = random_() % dealt.places();
      if (other / problem_.each != group) dealt.exchange(place, other);
    }
    left_ -= cost_;
  }

  /// Goes through the exchanges of a group's items with all others; `level` of one says how good
  /// it is or that it is not wanted, and the best is carried out.
  template <class Level>
  bool exchange_best(Dealt& dealt, std::size_t group, const Level& level) {
    std::optional<Places> best;
    double best_level = 0.0;
    const std::size_t begin = group * problem_.each;
    for (std::size_t place = begin; place < begin + problem_.each; ++place) {
      for (std::size_t other = 0; other < dealt.places(); ++other) {
        if (other == begin) other += problem_.each;
        if (other >= dealt.places()) break;
        const double now = level(place, other);
        if (now <= best_level || !is_allowed(dealt, place, other)) continue;
        best_level = now;
        best = {place, other};
      }
    }
    left_ -= cost_ * static_cast<long>(problem_.each * dealt.places());
    if (!best) return false;
    dealt.exchange(best->first, best->second);
    return true;
  }

  [[nodiscard]] bool is_allowed(const Dealt& dealt, std::size_t place, std::size_t other) const {
    return problem_.bands.empty() || dealt.beyond_after(place, other) <= dealt.beyond();
  }

  /// Gain of the weaker of the two groups over the weakest now.
  bool raise_weakest(Dealt& dealt) {
    const std::size_t group = dealt.weakest();
    const double now = dealt.sum(group);
    return exchange_best(dealt, group, [&](std::size_t place, std::size_t other) {
      const double more = dealt.worth_at(other) - dealt.worth_at(place);
      if (more <= equal_) return 0.0;
      if (dealt.is_spare(other)) return more;
      const double gain = std::min(more, dealt.sum(dealt.group_of(other)) - more - now);
      return gain > equal_ ? gain : 0.0;
    });
  }

  bool lower_strongest(Dealt& dealt) {
    const std::size_t group = dealt.strongest();
    const double now = dealt.sum(group);
    const double least = dealt.sum(dealt.weakest());
    return exchange_best(dealt, group, [&](std::size_t place, std::size_t other) {
      const double less = dealt.worth_at(place) - dealt.worth_at(other);
      if (less <= equal_ || now - less < least) return 0.0;
      if (dealt.is_spare(other)) return less;
      const double gain = std::min(less, now - (dealt.sum(dealt.group_of(other)) + less));
      return gain > equal_ ? gain : 0.0;
    });
  }

  bool mend_bands(Dealt& dealt) {
    for (std::size_t band = 0; band < problem_.bands.size(); ++band) {
      for (const std::size_t group : {dealt.lowest_of(band), dealt.highest_of(band)}) {
        const bool is_better =
            exchange_best(dealt, group, [&](std::size_t place, std::size_t other) {
              return dealt.beyond() - dealt.beyond_after(place, other);
            });
        if (is_better) return true;
      }
    }
    return false;
  }

  const GroupingProblem& problem_;
  double bound_;
  long effort_;
  long left_;
  long cost_;
  double equal_;
  base::Progress& progress_;
  Dealt best_;
  std::mt19937_64 random_{20};  // any seed does, as long as it stays
  bool was_stopped_ = false;
};

}  // namespace

Grouping exchange_items(const GroupingProblem& problem, double bound, long effort,
                        base::Progress& progress) {
  return Search(problem, bound, effort, progress).run();
}

}  // namespace tideover::numeric

/// A dealing in the making: who lies where, the sums of the groups, and what an exchange would do.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "numeric/grouping.hpp"

namespace tideover::numeric {

/// Places count on through the groups, then come the spares.
class Dealt {
 public:
  /// `item_at[p]` lies at place p; every item once.
  Dealt(const GroupingProblem& problem, std::vector<std::size_t> item_at);

  [[nodiscard]] const GroupingProblem& problem() const { return *problem_; }
  [[nodiscard]] std::size_t places() const { return item_at_.size(); }
  [[nodiscard]] std::size_t item_at(std::size_t place) const { return item_at_[place]; }
  [[nodiscard]] double worth_at(std::size_t place) const { return worth_at_[place]; }
  [[nodiscard]] bool is_spare(std::size_t place) const {
    return place >= problem_->groups * problem_->each;
  }
  /// Of a place that is no spare's.
  [[nodiscard]] std::size_t group_of(std::size_t place) const { return place / problem_->each; }

  [[nodiscard]] double sum(std::size_t group) const { return sums_.front()[group]; }
  [[nodiscard]] std::size_t weakest() const { return extremes_.front().lowest.front(); }
  [[nodiscard]] std::size_t strongest() const { return extremes_.front().highest.front(); }
  /// The groups with the least and the largest sum of a band's weight.
  [[nodiscard]] std::size_t lowest_of(std::size_t band) const {
    return extremes_[band + 1].lowest.front();
  }
  [[nodiscard]] std::size_t highest_of(std::size_t band) const {
    return extremes_[band + 1].highest.front();
  }
  [[nodiscard]] double spread() const { return sum(strongest()) - sum(weakest()); }
  /// How far all bands together are left; 0 within.
  [[nodiscard]] double beyond() const { return beyond_; }
  /// The same after an exchange of two places, at most one of them a spare's.
  [[nodiscard]] double beyond_after(std::size_t place, std::size_t other) const;
  void exchange(std::size_t place, std::size_t other);

  [[nodiscard]] Grouping grouping() const;

 private:
  /// Three groups at each end: two may be those that change.
  struct Extremes {
    std::array<std::size_t, 3> lowest{};
    std::array<std::size_t, 3> highest{};
    std::size_t count = 0;
  };
  [[nodiscard]] const std::vector<double>& weight(std::size_t quantity) const {
    return quantity == 0 ? problem_->worth : problem_->bands[quantity - 1].weight;
  }
  void find_extremes(std::size_t quantity);
  [[nodiscard]] double beyond_with(std::size_t band, std::size_t place, std::size_t other) const;

  const GroupingProblem* problem_;
  std::vector<std::size_t> item_at_;
  std::vector<double> worth_at_;
  std::vector<std::vector<double>> sums_;  ///< [worth, then each band's weight][group]
  std::vector<Extremes> extremes_;         ///< of each of these
  double beyond_ = 0.0;
};

}  // namespace tideover::numeric

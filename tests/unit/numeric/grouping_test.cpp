#include "numeric/grouping.hpp"

#include <algorithm>
#include <random>
#include <set>
#include <vector>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "base/contract.hpp"
#include "numeric/grouping_bound.hpp"
#include "numeric/grouping_exhaustion.hpp"

namespace {

using namespace tideover;
using numeric::EvenBand;
using numeric::Grouping;
using numeric::GroupingProblem;

Grouping grouped(const GroupingProblem& problem) {
  base::NoProgress nobody;
  return numeric::group_evenly(problem, nobody);
}

/// Every dealing, one item after the other to every group with room or to the spares. Slow, and
/// written without a thought of symmetry, so that it can judge what is clever.
class EveryDealing {
 public:
  explicit EveryDealing(const GroupingProblem& problem)
      : problem_(problem),
        count_(problem.groups, 0),
        worth_(problem.groups, 0.0),
        weights_(problem.bands.size(), std::vector<double>(problem.groups, 0.0)) {
    deal(0, problem.worth.size() - problem.groups * problem.each);
  }
  bool has_any = false;
  double weakest = 0.0;
  double spread = 0.0;

 private:
  void deal(std::size_t item, std::size_t spares) {
    if (item == problem_.worth.size()) {
      judge();
      return;
    }
    if (spares > 0) deal(item + 1, spares - 1);
    for (std::size_t g = 0; g < problem_.groups; ++g) {
      if (count_[g] == problem_.each) continue;
      put(item, g, 1.0);
      ++count_[g];
      deal(item + 1, spares);
      --count_[g];
      put(item, g, -1.0);
    }
  }
  void put(std::size_t item, std::size_t g, double sign) {
    worth_[g] += sign * problem_.worth[item];
    for (std::size_t b = 0; b < weights_.size(); ++b) {
      weights_[b][g] += sign * problem_.bands[b].weight[item];
    }
  }
  void judge() {
    for (std::size_t b = 0; b < weights_.size(); ++b) {
      const auto [least, most] = std::ranges::minmax_element(weights_[b]);
      if (numeric::beyond_band(problem_.bands[b], *least, *most) > 0.0) return;
    }
    const auto [least, most] = std::ranges::minmax_element(worth_);
    const bool is_better = !has_any || *least > weakest + 1e-9 ||
                           (*least > weakest - 1e-9 && *most - *least < spread - 1e-9);
    if (!is_better) return;
    has_any = true;
    weakest = *least;
    spread = *most - *least;
  }

  const GroupingProblem& problem_;
  std::vector<std::size_t> count_;
  std::vector<double> worth_;
  std::vector<std::vector<double>> weights_;
};

/// Capacities in steps of 10 mAh, so that some are alike.
GroupingProblem any_lot(std::size_t most_items) {
  GroupingProblem problem;
  problem.groups = *rc::gen::inRange<std::size_t>(1, 5);
  problem.each =
      *rc::gen::inRange<std::size_t>(1, std::min<std::size_t>(4, most_items / problem.groups) + 1);
  const std::size_t dealt = problem.groups * problem.each;
  const std::size_t count = *rc::gen::inRange<std::size_t>(dealt, most_items + 1);
  for (std::size_t k = 0; k < count; ++k) {
    problem.worth.push_back(0.01 * *rc::gen::inRange(150, 300));
  }
  return problem;
}

EvenBand any_band(std::size_t count, EvenBand::Measure measure, double most) {
  EvenBand band;
  band.measure = measure;
  band.most = most;
  for (std::size_t k = 0; k < count; ++k) band.weight.push_back(*rc::gen::inRange(10, 20));
  return band;
}

void check_is_dealing(const GroupingProblem& problem, const Grouping& made) {
  std::set<std::size_t> seen(made.spares.begin(), made.spares.end());
  RC_ASSERT(made.groups.size() == problem.groups);
  for (const auto& group : made.groups) {
    RC_ASSERT(group.size() == problem.each);
    seen.insert(group.begin(), group.end());
  }
  RC_ASSERT(seen.size() == problem.worth.size());
  RC_ASSERT(*seen.rbegin() == problem.worth.size() - 1);
}

GroupingProblem drawn_lot(std::size_t count, std::size_t groups, std::size_t each, unsigned seed,
                          double step) {
  std::mt19937_64 random(seed);
  GroupingProblem problem{{}, groups, each};
  problem.effort = 10'000'000;
  for (std::size_t k = 0; k < count; ++k) {
    problem.worth.push_back(2.0 + step * static_cast<double>(random() % 400));
  }
  return problem;
}

}  // namespace

TEST_CASE("grouping: no dealing of a small lot is better") {
  CHECK(rc::check([] {
    const GroupingProblem problem = any_lot(8);
    const Grouping made = grouped(problem);
    const EveryDealing all(problem);
    check_is_dealing(problem, made);
    RC_ASSERT(made.is_best);
    RC_ASSERT(std::abs(made.weakest - all.weakest) < 1e-8);
    RC_ASSERT(std::abs(made.spread - all.spread) < 1e-8);
    RC_ASSERT(made.bound > all.weakest - 1e-9);
  }));
}

TEST_CASE("grouping: nor under bands, and where none keeps them it says so") {
  CHECK(rc::check([] {
    GroupingProblem problem = any_lot(7);
    const std::size_t count = problem.worth.size();
    problem.bands.push_back(any_band(count, EvenBand::Measure::Ratio, 0.1));
    if (*rc::gen::arbitrary<bool>()) {
      problem.bands.push_back(any_band(count, EvenBand::Measure::Difference, 4.0));
    }
    const Grouping made = grouped(problem);
    const EveryDealing all(problem);
    check_is_dealing(problem, made);
    RC_ASSERT(made.keeps_bands == all.has_any);
    RC_ASSERT(made.bands_impossible != all.has_any);
    if (!all.has_any) return;
    RC_ASSERT(made.is_best);
    RC_ASSERT(std::abs(made.weakest - all.weakest) < 1e-8);
    RC_ASSERT(std::abs(made.spread - all.spread) < 1e-8);
  }));
}

TEST_CASE("grouping: never worse than the items as they come") {
  CHECK(rc::check([] {
    const GroupingProblem problem = any_lot(14);
    const Grouping made = grouped(problem);
    const Grouping plain = numeric::in_order(problem);
    RC_ASSERT(made.weakest >= plain.weakest - 1e-8);
    if (made.weakest < plain.weakest + 1e-8) RC_ASSERT(made.spread <= plain.spread + 1e-8);
  }));
}

TEST_CASE("grouping: another item, good or bad, never lowers the weakest group") {
  CHECK(rc::check([] {
    GroupingProblem problem = any_lot(13);
    const Grouping before = grouped(problem);
    problem.worth.push_back(0.01 * *rc::gen::inRange(100, 350));
    const Grouping after = grouped(problem);
    RC_ASSERT(after.weakest >= before.weakest - 1e-8);
  }));
}

TEST_CASE("grouping: a better item in place of one never lowers the weakest group") {
  CHECK(rc::check([] {
    GroupingProblem problem = any_lot(13);
    const Grouping before = grouped(problem);
    const std::size_t at = *rc::gen::inRange<std::size_t>(0, problem.worth.size());
    problem.worth[at] += 0.01 * *rc::gen::inRange(1, 100);
    RC_ASSERT(grouped(problem).weakest >= before.weakest - 1e-8);
  }));
}

TEST_CASE("grouping: the order in which items come changes neither weakest group nor spread") {
  CHECK(rc::check([] {
    GroupingProblem problem = any_lot(12);
    const Grouping one = grouped(problem);
    std::ranges::reverse(problem.worth);
    const Grouping other = grouped(problem);
    RC_ASSERT(std::abs(one.weakest - other.weakest) < 1e-8);
    RC_ASSERT(std::abs(one.spread - other.spread) < 1e-8);
  }));
}

TEST_CASE("grouping: with spares the strongest items are not always those that spread least") {
  // The four strongest give 5 + 3 and 4 + 3. With the weakest, 5 + 2 and 4 + 3 have no spread.
  const Grouping made = grouped({{5.0, 4.0, 3.0, 3.0, 2.0}, 2, 2});
  CHECK(made.weakest == doctest::Approx(7.0));
  CHECK(made.spread == doctest::Approx(0.0));
  CHECK(made.spares == std::vector<std::size_t>{3});
}

TEST_CASE("grouping: pairs of the strongest with the weakest are shown best by folding") {
  const GroupingProblem problem = drawn_lot(300, 150, 2, 3, 0.001);
  const Grouping made = grouped(problem);
  CHECK(made.weakest == doctest::Approx(made.bound).epsilon(1e-12));
}

TEST_CASE("grouping: 400 cells come within 0.1 percent of what nothing exceeds") {
  for (const auto& [groups, each] :
       {std::pair<std::size_t, std::size_t>{10, 40}, {40, 10}, {133, 3}}) {
    CAPTURE(groups);
    const GroupingProblem problem = drawn_lot(400, groups, each, 1, 0.001);
    const Grouping made = grouped(problem);
    CHECK(made.gap_share() < 0.001);
    CHECK(made.bound <= 400.0 * 2.4 / static_cast<double>(groups));
  }
}

TEST_CASE("grouping: the same lot gives the same groups") {
  GroupingProblem problem = drawn_lot(60, 12, 4, 7, 0.001);
  problem.bands.push_back({problem.worth, EvenBand::Measure::Difference, 0.5});
  const Grouping one = grouped(problem);
  const Grouping other = grouped(problem);
  CHECK(one.groups == other.groups);
  CHECK(one.spares == other.spares);
  CHECK(one.keeps_bands);
}

TEST_CASE("grouping: one item a group takes the best, and items all alike are shown best at once") {
  const Grouping singles = grouped({{1.0, 4.0, 2.0, 3.0}, 2, 1});
  CHECK(singles.weakest == 3.0);
  CHECK(singles.spares == std::vector<std::size_t>{0, 2});
  const Grouping alike = grouped({std::vector<double>(16, 2.5), 4, 4});
  CHECK(alike.is_best);
  CHECK(alike.spread == 0.0);
}

TEST_CASE("grouping: what cannot be dealt is our fault") {
  CHECK_THROWS_AS(static_cast<void>(grouped({{1.0, 2.0}, 3, 1})), base::ContractFault);
  CHECK_THROWS_AS(static_cast<void>(grouped({{1.0, -2.0}, 2, 1})), base::ContractFault);
  CHECK_THROWS_AS(static_cast<void>(grouped({{1.0, 2.0}, 2, 1, {EvenBand{{1.0}}}})),
                  base::ContractFault);
}

TEST_CASE("grouping: who is asked to stop ends soon with a whole dealing") {
  class StopAtOnce final : public base::Progress {
   public:
    void report(double, std::string_view) override {}
    [[nodiscard]] bool stop_asked() const override { return true; }
  } impatient;
  const GroupingProblem problem = drawn_lot(200, 20, 10, 5, 0.001);
  const Grouping made = numeric::group_evenly(problem, impatient);
  CHECK(made.was_stopped);
  CHECK(made.groups.size() == 20);
  CHECK(made.weakest >= numeric::in_order(problem).weakest);
}

TEST_CASE("the bound on the weakest group is never beaten") {
  CHECK(rc::check([] {
    const GroupingProblem problem = any_lot(9);
    const EveryDealing all(problem);
    const double bound = numeric::weakest_group_bound(problem.worth, problem.groups, problem.each);
    RC_ASSERT(bound >= all.weakest - 1e-9);
  }));
}

TEST_CASE("one giant does not lift the bound for the groups without it") {
  // Two groups of two: whoever has not the giant has 2 at most.
  CHECK(numeric::weakest_group_bound({100.0, 1.0, 1.0, 1.0}, 2, 2) == doctest::Approx(2.0));
}

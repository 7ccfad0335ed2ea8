/// What each test can be asked for.
#pragma once

#include <vector>

#include "cell/fit_layout.hpp"

namespace tideover::cell {

/// The largest swing of charge of any test: a first guess of the capacity [C].
[[nodiscard]] double first_capacity_c(const std::vector<FitTest>& tests);

/// Roles of all tests, for a cell of the class that holds about `capacity_c`. The anchor is the
/// slowest whole discharge from full, at an eighth of the capacity an hour or slower; a fast one
/// leaves charge behind and cannot say what empty is.
[[nodiscard]] std::vector<TestRole> roles_of(const std::vector<FitTest>& tests,
                                             const part::Cell& class_cell, double capacity_c);

/// A test that gave much less charge than another of its kind: the cell was older by then, or it
/// is another cell.
struct OddTest {
  std::size_t test = 0;
  double charge_ratio = 1.0;  ///< over the best of its kind
};

/// Among whole discharges at nearly the same current, those that gave less than 93 % of what the
/// best one gave (our choice: four times what repeated tests differ by).
[[nodiscard]] std::vector<OddTest> odd_tests(const std::vector<FitTest>& tests,
                                             const part::Cell& class_cell, double capacity_c);

}  // namespace tideover::cell

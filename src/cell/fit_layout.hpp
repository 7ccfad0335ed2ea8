/// Which number stands where in the vector that the least squares move, and what is known of each
/// beforehand: the class's row, with a deviation that says how far a cell may be from its class.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "cell/cell_law.hpp"
#include "cell/fit_test.hpp"
#include "part/pack/cell.hpp"

namespace tideover::cell {

/// One parameter: where it starts, what is known of it beforehand.
struct Prior {
  double start = 0.0;
  double expected = 0.0;
  double deviation = 1.0;
  bool is_firm = true;  ///< however far off, it is no outlier
};

/// What the fit takes a test for.
struct TestRole {
  bool is_anchor = false;     ///< a whole slow discharge: it says what full and empty are
  bool seeks_offset = false;  ///< slow both ways: an offset of the current shows
  double start_share = 1.0;   ///< first guess of its charge
  bool begins_full = false;
};

class FitLayout {
 public:
  /// `capacity_c`: first guess. The tests outlive the layout.
  FitLayout(const part::Cell& class_cell, const std::vector<FitTest>& tests,
            std::vector<TestRole> roles, double capacity_c);

  [[nodiscard]] const std::vector<Prior>& priors() const { return priors_; }
  [[nodiscard]] int size() const { return static_cast<int>(priors_.size()); }
  /// The cell that the numbers mean, on top of the class.
  [[nodiscard]] part::Cell cell_of(std::span<const double> at) const;
  /// Its law in one test, whose capacity may be a little another.
  [[nodiscard]] double capacity_c(std::span<const double> at, std::size_t test) const;
  [[nodiscard]] double start_share(std::span<const double> at, std::size_t test) const;
  [[nodiscard]] double offset_a(std::span<const double> at, std::size_t test) const;
  /// Beyond the priors: smoothness of both curves. Appends residuals.
  void add_smoothness(std::span<const double> at, std::vector<double>& residuals) const;
  /// ln of the test's capacity over the cell's, in standard deviations.
  [[nodiscard]] double odd_capacity(std::span<const double> at, std::size_t test) const;
  /// The same of the anchor, whose ratio is no parameter; 0 for the others.
  [[nodiscard]] double odd_anchor(std::span<const double> at, std::size_t test) const {
    return roles_[test].is_anchor ? odd_capacity(at, test) : 0.0;
  }

  // Where things stand.
  [[nodiscard]] int rest(std::size_t knot) const { return rest_ + static_cast<int>(knot); }
  [[nodiscard]] int series(std::size_t knot) const { return series_ + static_cast<int>(knot); }
  int quick_ohm = 0;
  int quick_s = 0;
  int slow_ohm = 0;
  int slow_s = 0;
  int arrhenius = 0;
  int gap = 0;
  int capacity = 0;
  [[nodiscard]] const std::vector<TestRole>& roles() const { return roles_; }
  [[nodiscard]] const std::vector<double>& rest_soc() const { return rest_soc_; }
  [[nodiscard]] const std::vector<double>& series_soc() const { return series_soc_; }

 private:
  struct PerTest {
    int start = -1;
    int ratio = -1;
    int offset = -1;
  };
  int add(Prior prior);
  void add_curves(bool is_anchored);
  void add_resistances();
  void add_tests();

  const part::Cell& class_cell_;
  const std::vector<FitTest>& tests_;
  std::vector<TestRole> roles_;
  CellLaw class_law_;
  double capacity_guess_c_;
  std::vector<double> rest_soc_;
  std::vector<double> series_soc_;
  std::vector<Prior> priors_;
  int rest_ = 0;
  int series_ = 0;
  std::vector<PerTest> per_test_;
};

/// Two runs of one test on one cell seldom give the same charge: 1.7 % apart in the open set
/// Kollmeyer 2018. Standard deviation of a test's capacity about the cell's.
inline constexpr double test_to_test_share = 0.02;

}  // namespace tideover::cell

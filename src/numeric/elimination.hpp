/// Gaussian elimination of a sparse matrix whose pattern stays while its numbers change: the order
/// of pivots and every index are planned once, and a plan is replayed as a flat list.
/// Source: Markowitz, Management Science 3 (1957) 255, order by least possible fill; threshold
/// pivoting after Duff, Erisman and Reid, Direct Methods for Sparse Matrices, 1986 (from memory).
#pragma once

#include <span>
#include <vector>

#include "numeric/pattern.hpp"

namespace tideover::numeric {

class Elimination {
 public:
  /// `pattern` must outlive this object.
  explicit Elimination(const Pattern& pattern);

  /// Chooses pivots for these numbers (entries in the pattern's order) and factors them.
  /// False if the matrix is singular to working precision.
  bool plan(std::span<const double> entries);

  /// Factors other numbers along the plan. False when a pivot has lost too many digits against the
  /// row it came from: the plan no longer suits and another must be made.
  [[nodiscard]] bool factor(std::span<const double> entries);

  /// Overwrites b with the solution x of A x = b.
  void solve(std::span<double> b) const;

  [[nodiscard]] bool is_planned() const { return !pivot_row_.empty(); }
  [[nodiscard]] int fill_count() const { return static_cast<int>(factor_.size()); }
  /// Multiply-subtract operations of one factorisation.
  [[nodiscard]] long operation_count() const { return static_cast<long>(target_.size()); }

 private:
  struct Work;
  void record(const Work& work);

  const Pattern* pattern_;
  int n_;
  std::vector<int> pivot_row_;     ///< row of the k-th pivot
  std::vector<int> pivot_column_;  ///< its column
  std::vector<int> load_;          ///< place in factor_ of each entry of the pattern
  std::vector<double> factor_;     ///< L (unit diagonal) and U; pivots stored inverted

  std::vector<int> upper_start_;   ///< first place of U's row k after its pivot; n + 1 long
  std::vector<int> upper_column_;  ///< pivot number of the column, for places in U
  std::vector<int> row_start_;     ///< first place of L's row k; n + 1 long
  std::vector<int> row_column_;    ///< pivot number of the column, for places in L
  std::vector<int> lower_start_;   ///< first of the eliminations with pivot k; n + 1 long
  std::vector<int> lower_place_;   ///< place in factor_ of the multiplier
  std::vector<int> lower_row_;     ///< pivot number of the row it acts on
  std::vector<int> target_;        ///< places hit, in the order of replay
  mutable std::vector<double> right_;
};

}  // namespace tideover::numeric

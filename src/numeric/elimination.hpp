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
  /// Rows of one triangle that can be solved one after another, and how many neighbours among them
  /// have equally many entries: loops of one length after another are what a processor foretells.
  struct Triangle {
    std::vector<int> row;        ///< pivot numbers, in an order in which each can be solved
    std::vector<int> column;     ///< pivot numbers of their entries, row after row
    std::vector<int> run_rows;   ///< so many rows in that order ...
    std::vector<int> run_terms;  ///< ... have so many entries each
    int first_place = 0;         ///< in factor_, of the first entry
  };
  using Rows = std::vector<std::vector<int>>;
  struct Entries;
  [[nodiscard]] static Triangle order(const Rows& entries);
  [[nodiscard]] Entries entries_of(const Work& work) const;
  void record(const Work& work);
  void record_eliminations(const Entries& entries, const std::vector<int>& place);
  void record_loads(const std::vector<int>& place);
  /// begin(k): the right-hand side of row k; end(k, x): its solution is x.
  template <class Begin, class End>
  void solve_triangle(const Triangle& triangle, const Begin& begin, const End& end) const;

  const Pattern* pattern_;
  int n_;
  std::vector<int> pivot_row_;     ///< row of the k-th pivot
  std::vector<int> pivot_column_;  ///< its column
  std::vector<int> load_;          ///< place in factor_ of each entry of the pattern
  std::vector<double> factor_;     ///< inverted pivots, U row by row, L (unit diagonal) row by row

  Triangle lower_;
  Triangle upper_;
  std::vector<int> upper_start_;  ///< first place of U's row k after its pivot
  std::vector<int> upper_count_;  ///< entries of U's row k after its pivot
  std::vector<int> lower_start_;  ///< first of the eliminations with pivot k; n + 1 long
  std::vector<int> lower_place_;  ///< place in factor_ of the multiplier
  std::vector<int> target_;       ///< places hit, in the order of replay
  mutable std::vector<double> right_;
};

}  // namespace tideover::numeric

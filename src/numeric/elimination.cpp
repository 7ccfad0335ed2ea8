#include "numeric/elimination.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "base/contract.hpp"

namespace tideover::numeric {

namespace {

/// A diagonal pivot is taken if it is not smaller than this share of the largest in its row.
constexpr double threshold = 1e-3;
/// A pivot smaller than this share of the largest number left in its row is rounding and no more.
constexpr double worst_loss = 1e-15;

}  // namespace

/// Dense picture of a sparse matrix while its plan is made.
struct Elimination::Work {
  explicit Work(int size)
      : n(static_cast<std::size_t>(size)),
        value(n * n, 0.0),
        present(n * n, 0),
        row_done(n, 0),
        column_done(n, 0),
        row_count(n, 0),
        column_count(n, 0) {}

  std::size_t n;
  std::vector<double> value;
  std::vector<char> present;  ///< entries of the matrix and its fill
  std::vector<char> row_done;
  std::vector<char> column_done;
  std::vector<int> row_count;
  std::vector<int> column_count;

  void put(std::size_t row, std::size_t column) {
    if (present[row * n + column] != 0) return;
    present[row * n + column] = 1;
    ++row_count[row];
    ++column_count[column];
  }
  [[nodiscard]] double row_largest(std::size_t row) const {
    double largest = 0.0;
    for (std::size_t c = 0; c < n; ++c) {
      if (column_done[c] == 0) largest = std::max(largest, std::abs(value[row * n + c]));
    }
    return largest;
  }
  struct Pivot {
    std::size_t row = 0;
    std::size_t column = 0;
    bool found = false;
  };
  /// The diagonal entry of least fill that is large enough; else the largest entry of the row that
  /// has fewest.
  [[nodiscard]] Pivot choose() const;
  void eliminate(const Pivot& pivot);
};

Elimination::Work::Pivot Elimination::Work::choose() const {
  Pivot best;
  long least = std::numeric_limits<long>::max();
  for (std::size_t k = 0; k < n; ++k) {
    if (row_done[k] != 0 || column_done[k] != 0) continue;
    const long fill = static_cast<long>(row_count[k] - 1) * (column_count[k] - 1);
    if (fill >= least) continue;
    const double diagonal = std::abs(value[k * n + k]);
    if (diagonal == 0.0 || diagonal < threshold * row_largest(k)) continue;
    best = {k, k, true};
    least = fill;
  }
  if (best.found) return best;
  for (std::size_t r = 0; r < n; ++r) {
    if (row_done[r] != 0) continue;
    const double largest = row_largest(r);
    for (std::size_t c = 0; c < n; ++c) {
      if (column_done[c] != 0 || largest == 0.0) continue;
      if (std::abs(value[r * n + c]) < 0.5 * largest) continue;
      const long fill = static_cast<long>(row_count[r] - 1) * (column_count[c] - 1);
      if (fill < least) best = {r, c, true};
      least = std::min(least, fill);
    }
  }
  return best;
}

void Elimination::Work::eliminate(const Pivot& pivot) {
  row_done[pivot.row] = 1;
  column_done[pivot.column] = 1;
  for (std::size_t c = 0; c < n; ++c) {
    if (present[pivot.row * n + c] != 0) --column_count[c];
  }
  std::vector<std::size_t> columns;
  for (std::size_t c = 0; c < n; ++c) {
    if (column_done[c] == 0 && present[pivot.row * n + c] != 0) columns.push_back(c);
  }
  const double inverse = 1.0 / value[pivot.row * n + pivot.column];
  for (std::size_t r = 0; r < n; ++r) {
    if (row_done[r] != 0 || present[r * n + pivot.column] == 0) continue;
    --row_count[r];
    const double multiplier = value[r * n + pivot.column] * inverse;
    for (const std::size_t c : columns) {
      put(r, c);
      value[r * n + c] -= multiplier * value[pivot.row * n + c];
    }
  }
}

Elimination::Elimination(const Pattern& pattern) : pattern_(&pattern), n_(pattern.size()) {
  right_.resize(static_cast<std::size_t>(n_));
}

bool Elimination::plan(std::span<const double> entries) {
  Work work(n_);
  for (std::size_t r = 0; r < work.n; ++r) {
    for (int e = pattern_->row_start()[r]; e < pattern_->row_start()[r + 1]; ++e) {
      const auto c = static_cast<std::size_t>(pattern_->column()[static_cast<std::size_t>(e)]);
      work.put(r, c);
      work.value[r * work.n + c] = entries[static_cast<std::size_t>(e)];
    }
  }
  pivot_row_.clear();
  pivot_column_.clear();
  for (int k = 0; k < n_; ++k) {
    const Work::Pivot pivot = work.choose();
    if (!pivot.found) {
      pivot_row_.clear();
      return false;
    }
    work.eliminate(pivot);
    pivot_row_.push_back(static_cast<int>(pivot.row));
    pivot_column_.push_back(static_cast<int>(pivot.column));
  }
  record(work);
  return factor(entries);
}

/// `entries`: for each pivot number the columns of its row, which must be solved before it.
Elimination::Triangle Elimination::order(const Rows& entries) {
  const std::size_t n = entries.size();
  std::vector<int> level(n, -1);
  const auto level_of = [&](auto&& self, std::size_t k) -> int {
    if (level[k] >= 0) return level[k];
    int above = 0;
    for (const int c : entries[k]) {
      above = std::max(above, 1 + self(self, static_cast<std::size_t>(c)));
    }
    return level[k] = above;
  };
  Triangle triangle;
  for (std::size_t k = 0; k < n; ++k) {
    level_of(level_of, k);
    triangle.row.push_back(static_cast<int>(k));
  }
  const auto key = [&](int k) {
    const auto at = static_cast<std::size_t>(k);
    return std::pair(level[at], entries[at].size());
  };
  std::stable_sort(triangle.row.begin(), triangle.row.end(),
                   [&key](int a, int b) { return key(a) < key(b); });
  for (const int k : triangle.row) {
    const auto& columns = entries[static_cast<std::size_t>(k)];
    triangle.column.insert(triangle.column.end(), columns.begin(), columns.end());
    const int terms = static_cast<int>(columns.size());
    if (triangle.run_terms.empty() || triangle.run_terms.back() != terms) {
      triangle.run_terms.push_back(terms);
      triangle.run_rows.push_back(0);
    }
    ++triangle.run_rows.back();
  }
  return triangle;
}

/// Entries off the diagonal of the matrix in the order of its pivots, fill included.
struct Elimination::Entries {
  Rows upper;       ///< columns of U's rows
  Rows lower;       ///< columns of L's rows
  Rows lower_rows;  ///< rows of L's columns
};

Elimination::Entries Elimination::entries_of(const Work& work) const {
  const std::size_t n = work.n;
  Entries entries{Rows(n), Rows(n), Rows(n)};
  for (std::size_t r = 0; r < n; ++r) {
    const std::size_t row = static_cast<std::size_t>(pivot_row_[r]) * n;
    for (std::size_t c = 0; c < n; ++c) {
      if (c == r || work.present[row + static_cast<std::size_t>(pivot_column_[c])] == 0) continue;
      (c > r ? entries.upper : entries.lower)[r].push_back(static_cast<int>(c));
      if (c < r) entries.lower_rows[c].push_back(static_cast<int>(r));
    }
  }
  return entries;
}

void Elimination::record(const Work& work) {
  const std::size_t n = work.n;
  const Entries entries = entries_of(work);
  std::vector<int> place(n * n, -1);
  int next = 0;
  for (std::size_t k = 0; k < n; ++k) place[k * n + k] = next++;
  const auto put = [&](const Rows& rows) {
    Triangle triangle = order(rows);
    triangle.first_place = next;
    for (const int row : triangle.row) {
      const auto k = static_cast<std::size_t>(row);
      for (const int c : rows[k]) place[k * n + static_cast<std::size_t>(c)] = next++;
    }
    return triangle;
  };
  upper_ = put(entries.upper);
  lower_ = put(entries.lower);
  factor_.assign(static_cast<std::size_t>(next), 0.0);
  record_eliminations(entries, place);
  record_loads(place);
}

void Elimination::record_eliminations(const Entries& entries, const std::vector<int>& place) {
  const std::size_t n = entries.upper.size();
  upper_start_.assign(n, 0);
  upper_count_.assign(n, 0);
  lower_start_.assign(1, 0);
  lower_place_.clear();
  target_.clear();
  for (std::size_t k = 0; k < n; ++k) {
    const std::vector<int>& upper = entries.upper[k];
    if (!upper.empty()) {
      upper_start_[k] = place[k * n + static_cast<std::size_t>(upper.front())];
      upper_count_[k] = static_cast<int>(upper.size());
    }
    for (const int row : entries.lower_rows[k]) {
      const auto r = static_cast<std::size_t>(row);
      lower_place_.push_back(place[r * n + k]);
      for (const int c : upper) target_.push_back(place[r * n + static_cast<std::size_t>(c)]);
    }
    lower_start_.push_back(static_cast<int>(lower_place_.size()));
  }
}

void Elimination::record_loads(const std::vector<int>& place) {
  const std::size_t n = pivot_row_.size();
  std::vector<std::size_t> row_at(n);     // row -> pivot number
  std::vector<std::size_t> column_at(n);  // column -> pivot number
  for (std::size_t k = 0; k < n; ++k) {
    row_at[static_cast<std::size_t>(pivot_row_[k])] = k;
    column_at[static_cast<std::size_t>(pivot_column_[k])] = k;
  }
  load_.clear();
  for (std::size_t r = 0; r < n; ++r) {
    for (int e = pattern_->row_start()[r]; e < pattern_->row_start()[r + 1]; ++e) {
      const auto c = static_cast<std::size_t>(pattern_->column()[static_cast<std::size_t>(e)]);
      load_.push_back(place[row_at[r] * n + column_at[c]]);
    }
  }
}

namespace {

/// One pivot's eliminations from rows of U with `Count` entries; more than that: `count`.
template <int Count>
const int* eliminate(double* value, double inverse, const double* upper, int count,
                     const int* place, const int* place_end, const int* target) {
  const int terms = Count < 0 ? count : Count;
  for (; place != place_end; ++place) {
    const double multiplier = value[*place] * inverse;
    value[*place] = multiplier;
    for (int u = 0; u < terms; ++u) value[target[u]] -= multiplier * upper[u];
    target += terms;
  }
  return target;
}

const int* eliminate(double* value, double inverse, const double* upper, int count,
                     const int* place, const int* place_end, const int* target) {
  switch (count) {
    case 1: return eliminate<1>(value, inverse, upper, 1, place, place_end, target);
    case 2: return eliminate<2>(value, inverse, upper, 2, place, place_end, target);
    case 3: return eliminate<3>(value, inverse, upper, 3, place, place_end, target);
    case 4: return eliminate<4>(value, inverse, upper, 4, place, place_end, target);
    default: return eliminate<-1>(value, inverse, upper, count, place, place_end, target);
  }
}

}  // namespace

bool Elimination::factor(std::span<const double> entries) {
  TIDEOVER_EXPECT(is_planned(), "factor follows plan");
  std::fill(factor_.begin(), factor_.end(), 0.0);
  double* const value = factor_.data();
  const int* const load = load_.data();
  for (std::size_t e = 0; e < load_.size(); ++e) value[load[e]] = entries[e];
  const int* target = target_.data();
  const int* const lower_start = lower_start_.data();
  const int* const lower_place = lower_place_.data();
  for (int k = 0; k < n_; ++k) {
    const auto at = static_cast<std::size_t>(k);
    const double* const upper = value + upper_start_[at];
    const int count = upper_count_[at];
    const double pivot = value[k];
    double row = std::abs(pivot);
    for (int u = 0; u < count; ++u) row = std::max(row, std::abs(upper[u]));
    if (!(std::abs(pivot) > worst_loss * row) || !std::isfinite(pivot)) return false;
    const double inverse = 1.0 / pivot;
    value[k] = inverse;
    target = eliminate(value, inverse, upper, count, lower_place + lower_start[k],
                       lower_place + lower_start[k + 1], target);
  }
  return true;
}

namespace {

/// right[row] -= its entries' products, `rows` rows of `Terms` entries; fewer than 0: `terms`.
template <int Terms, class Begin, class End>
void solve_rows(int rows, int terms, const int*& row, const int*& column, const double*& value,
                double* right, const Begin& begin, const End& end) {
  const int count = Terms < 0 ? terms : Terms;
  for (int k = 0; k < rows; ++k) {
    double sum = begin(*row);
    for (int l = 0; l < count; ++l) sum -= value[l] * right[column[l]];
    end(*row++, sum);
    column += count;
    value += count;
  }
}

}  // namespace

template <class Begin, class End>
void Elimination::solve_triangle(const Triangle& triangle, const Begin& begin,
                                 const End& end) const {
  double* const right = right_.data();
  const int* row = triangle.row.data();
  const int* column = triangle.column.data();
  const double* value = factor_.data() + triangle.first_place;
  for (std::size_t r = 0; r < triangle.run_rows.size(); ++r) {
    const int rows = triangle.run_rows[r];
    const int terms = triangle.run_terms[r];
    switch (terms) {
      case 0: solve_rows<0>(rows, 0, row, column, value, right, begin, end); break;
      case 1: solve_rows<1>(rows, 1, row, column, value, right, begin, end); break;
      case 2: solve_rows<2>(rows, 2, row, column, value, right, begin, end); break;
      case 3: solve_rows<3>(rows, 3, row, column, value, right, begin, end); break;
      case 4: solve_rows<4>(rows, 4, row, column, value, right, begin, end); break;
      default: solve_rows<-1>(rows, terms, row, column, value, right, begin, end);
    }
  }
}

void Elimination::solve(std::span<double> b) const {
  double* const right = right_.data();
  const double* const inverse = factor_.data();
  const int* const pivot_row = pivot_row_.data();
  const int* const pivot_column = pivot_column_.data();
  double* const x = b.data();
  solve_triangle(
      lower_, [x, pivot_row](int k) { return x[pivot_row[k]]; },
      [right](int k, double sum) { right[k] = sum; });
  solve_triangle(
      upper_, [right](int k) { return right[k]; },
      [=](int k, double sum) {
        right[k] = sum * inverse[k];
        x[pivot_column[k]] = right[k];
      });
}

}  // namespace tideover::numeric

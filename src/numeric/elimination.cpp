#include "numeric/elimination.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

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

void Elimination::record(const Work& work) {
  const std::size_t n = work.n;
  std::vector<std::size_t> row_at(n);     // row -> pivot number
  std::vector<std::size_t> column_at(n);  // column -> pivot number
  for (std::size_t k = 0; k < n; ++k) {
    row_at[static_cast<std::size_t>(pivot_row_[k])] = k;
    column_at[static_cast<std::size_t>(pivot_column_[k])] = k;
  }
  const auto has = [&](std::size_t row, std::size_t column) {
    return work.present[static_cast<std::size_t>(pivot_row_[row]) * n +
                        static_cast<std::size_t>(pivot_column_[column])] != 0;
  };
  std::vector<int> place(n * n, -1);
  int next = static_cast<int>(n);  // the first n places hold the inverted pivots
  upper_start_.assign(1, next);
  upper_column_.assign(n, 0);
  for (std::size_t k = 0; k < n; ++k) {
    place[k * n + k] = static_cast<int>(k);
    for (std::size_t c = k + 1; c < n; ++c) {
      if (!has(k, c)) continue;
      place[k * n + c] = next++;
      upper_column_.push_back(static_cast<int>(c));
    }
    upper_start_.push_back(next);
  }
  row_start_.assign(1, next);
  row_column_.assign(static_cast<std::size_t>(next), 0);
  for (std::size_t r = 0; r < n; ++r) {
    for (std::size_t k = 0; k < r; ++k) {
      if (!has(r, k)) continue;
      place[r * n + k] = next++;
      row_column_.push_back(static_cast<int>(k));
    }
    row_start_.push_back(next);
  }
  lower_start_.assign(1, 0);
  lower_place_.clear();
  lower_row_.clear();
  for (std::size_t k = 0; k < n; ++k) {
    for (std::size_t r = k + 1; r < n; ++r) {
      if (!has(r, k)) continue;
      lower_place_.push_back(place[r * n + k]);
      lower_row_.push_back(static_cast<int>(r));
    }
    lower_start_.push_back(static_cast<int>(lower_place_.size()));
  }
  target_.clear();
  for (std::size_t k = 0; k < n; ++k) {
    for (int l = lower_start_[k]; l < lower_start_[k + 1]; ++l) {
      const auto r = static_cast<std::size_t>(lower_row_[static_cast<std::size_t>(l)]);
      for (int u = upper_start_[k]; u < upper_start_[k + 1]; ++u) {
        const auto c = static_cast<std::size_t>(upper_column_[static_cast<std::size_t>(u)]);
        target_.push_back(place[r * n + c]);
      }
    }
  }
  load_.clear();
  for (std::size_t r = 0; r < n; ++r) {
    for (int e = pattern_->row_start()[r]; e < pattern_->row_start()[r + 1]; ++e) {
      const auto c = static_cast<std::size_t>(pattern_->column()[static_cast<std::size_t>(e)]);
      load_.push_back(place[row_at[r] * n + column_at[c]]);
    }
  }
  factor_.assign(static_cast<std::size_t>(next), 0.0);
}

bool Elimination::factor(std::span<const double> entries) {
  TIDEOVER_EXPECT(is_planned(), "factor follows plan");
  std::fill(factor_.begin(), factor_.end(), 0.0);
  double* const value = factor_.data();
  const int* const load = load_.data();
  for (std::size_t e = 0; e < load_.size(); ++e) value[load[e]] = entries[e];
  const int* target = target_.data();
  const int* const upper_start = upper_start_.data();
  const int* const lower_start = lower_start_.data();
  const int* const lower_place = lower_place_.data();
  for (int k = 0; k < n_; ++k) {
    const double* const upper = value + upper_start[k];
    const int count = upper_start[k + 1] - upper_start[k];
    const double pivot = value[k];
    double row = std::abs(pivot);
    for (int u = 0; u < count; ++u) row = std::max(row, std::abs(upper[u]));
    if (!(std::abs(pivot) > worst_loss * row) || !std::isfinite(pivot)) return false;
    const double inverse = 1.0 / pivot;
    value[k] = inverse;
    for (int l = lower_start[k]; l < lower_start[k + 1]; ++l) {
      const double multiplier = value[lower_place[l]] * inverse;
      value[lower_place[l]] = multiplier;
      for (int u = 0; u < count; ++u) value[target[u]] -= multiplier * upper[u];
      target += count;
    }
  }
  return true;
}

void Elimination::solve(std::span<double> b) const {
  const double* const value = factor_.data();
  double* const right = right_.data();
  const int* const pivot_row = pivot_row_.data();
  const int* const row_start = row_start_.data();
  const int* const row_column = row_column_.data();
  for (int k = 0; k < n_; ++k) {
    double sum = b[static_cast<std::size_t>(pivot_row[k])];
    for (int l = row_start[k]; l < row_start[k + 1]; ++l) sum -= value[l] * right[row_column[l]];
    right[k] = sum;
  }
  const int* const upper_start = upper_start_.data();
  const int* const upper_column = upper_column_.data();
  for (int k = n_ - 1; k >= 0; --k) {
    double sum = right[k];
    for (int u = upper_start[k]; u < upper_start[k + 1]; ++u) {
      sum -= value[u] * right[upper_column[u]];
    }
    right[k] = sum * value[k];
  }
  const int* const pivot_column = pivot_column_.data();
  for (int k = 0; k < n_; ++k) b[static_cast<std::size_t>(pivot_column[k])] = right[k];
}

}  // namespace tideover::numeric

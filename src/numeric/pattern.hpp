/// Which entries of a square matrix can be other than zero. Row-wise, columns rising; the
/// diagonal is always in.
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

namespace tideover::numeric {

class Pattern {
 public:
  Pattern() = default;
  [[nodiscard]] int size() const { return static_cast<int>(row_start_.size()) - 1; }
  [[nodiscard]] int entry_count() const { return static_cast<int>(column_.size()); }
  /// Index of entry (row, column); entry_count() for anything outside the matrix or not in the
  /// pattern, so that a slot there swallows what belongs to no unknown.
  [[nodiscard]] int find(int row, int column) const;
  [[nodiscard]] const std::vector<int>& row_start() const { return row_start_; }
  [[nodiscard]] const std::vector<int>& column() const { return column_; }

 private:
  friend class PatternMaker;
  std::vector<int> row_start_{0};
  std::vector<int> column_;
};

/// Collects entries; those outside the matrix are dropped.
class PatternMaker {
 public:
  explicit PatternMaker(int size) : size_(size) {}
  void add(int row, int column) {
    if (row < size_ && column < size_) entries_.emplace_back(row, column);
  }
  [[nodiscard]] Pattern make() &&;

 private:
  int size_;
  std::vector<std::pair<int, int>> entries_;
};

}  // namespace tideover::numeric

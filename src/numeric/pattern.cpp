#include "numeric/pattern.hpp"

#include <algorithm>

namespace tideover::numeric {

int Pattern::find(int row, int column) const {
  if (row >= size() || column >= size()) return entry_count();
  const auto begin = column_.begin() + row_start_[static_cast<std::size_t>(row)];
  const auto end = column_.begin() + row_start_[static_cast<std::size_t>(row) + 1];
  const auto at = std::lower_bound(begin, end, column);
  if (at == end || *at != column) return entry_count();
  return static_cast<int>(at - column_.begin());
}

Pattern PatternMaker::make() && {
  for (int k = 0; k < size_; ++k) entries_.emplace_back(k, k);
  std::sort(entries_.begin(), entries_.end());
  entries_.erase(std::unique(entries_.begin(), entries_.end()), entries_.end());
  Pattern pattern;
  pattern.row_start_.assign(static_cast<std::size_t>(size_) + 1, 0);
  for (const auto& [row, column] : entries_) {
    ++pattern.row_start_[static_cast<std::size_t>(row) + 1];
    pattern.column_.push_back(column);
  }
  for (std::size_t r = 0; r < static_cast<std::size_t>(size_); ++r) {
    pattern.row_start_[r + 1] += pattern.row_start_[r];
  }
  return pattern;
}

}  // namespace tideover::numeric

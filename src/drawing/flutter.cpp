#include "drawing/flutter.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/contract.hpp"

namespace tideover::drawing {

namespace {

constexpr double cell_mm = 0.6;
constexpr double least_turn_mm = 0.04;
constexpr double least_leap_mm = 1.0;
constexpr int turns_in_a_cell = 3;
constexpr std::size_t cells_in_a_row = 3;

std::size_t cell_of(double x_mm, double first_x_mm) {
  return static_cast<std::size_t>(std::floor((x_mm - first_x_mm) / cell_mm));
}

/// Follows a line and notices when it turns back by more than the least turn.
class Turns {
 public:
  /// True when the line has turned since the sample before.
  bool turned(double y_mm) {
    if (heading_ >= 0 && y_mm > extreme_mm_) extreme_mm_ = y_mm;
    if (heading_ <= 0 && y_mm < extreme_mm_) extreme_mm_ = y_mm;
    const double back_mm = y_mm - extreme_mm_;
    if (std::abs(back_mm) < least_turn_mm) return false;
    heading_ = back_mm > 0.0 ? 1 : -1;
    extreme_mm_ = y_mm;
    return true;
  }
  void restart(double y_mm) {
    heading_ = 1;
    extreme_mm_ = y_mm;
  }

 private:
  int heading_ = 1;  // 1 towards larger y, -1 towards smaller
  double extreme_mm_ = 0.0;
};

/// What happens in one cell of the width, to its samples first .. end-1.
struct Motion {
  std::size_t first = 0;
  std::size_t end = 0;
  int turns = 0;
  bool gap = false;
  double high_mm = -std::numeric_limits<double>::infinity();
  double low_mm = std::numeric_limits<double>::infinity();

  [[nodiscard]] bool restless() const { return !gap && turns >= turns_in_a_cell; }
  [[nodiscard]] double span_mm() const { return std::max(0.0, high_mm - low_mm); }
};

std::vector<Motion> motions(std::span<const double> x_mm, std::span<const double> y_mm) {
  std::vector<Motion> cells(cell_of(x_mm.back(), x_mm.front()) + 1);
  Turns line;
  bool started = false;
  for (std::size_t i = 0; i < x_mm.size(); ++i) {
    Motion& cell = cells[cell_of(x_mm[i], x_mm.front())];
    if (cell.end == 0) cell.first = i;
    cell.end = i + 1;
    if (!std::isfinite(y_mm[i])) {
      cell.gap = true;
      started = false;
      continue;
    }
    if (!started) line.restart(y_mm[i]);
    started = true;
    if (line.turned(y_mm[i])) ++cell.turns;
    cell.high_mm = std::max(cell.high_mm, y_mm[i]);
    cell.low_mm = std::min(cell.low_mm, y_mm[i]);
  }
  return cells;
}

// What cells two away on either side span, out of reach of a leap in this one.
double span_around_mm(const std::vector<Motion>& cells, std::size_t i) {
  const double before_mm = i >= 2 ? cells[i - 2].span_mm() : 0.0;
  const double after_mm = i + 2 < cells.size() ? cells[i + 2].span_mm() : 0.0;
  return std::max(before_mm, after_mm);
}

// Whether a cell also holds a leap: a span far beyond those around.
bool leaps(const std::vector<Motion>& cells, std::size_t i) {
  return cells[i].span_mm() > 2.0 * span_around_mm(cells, i) + least_leap_mm;
}

std::vector<bool> fluttering_cells(const std::vector<Motion>& cells) {
  std::vector<bool> fluttering(cells.size());
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const bool among_restless =
        i > 0 && i + 1 < cells.size() && cells[i - 1].restless() && cells[i + 1].restless();
    const bool restless = cells[i].restless() || (among_restless && !cells[i].gap);
    fluttering[i] = restless && !leaps(cells, i);
  }
  return fluttering;
}

void drop_short_stretches(std::vector<bool>& fluttering) {
  std::size_t first = 0;
  while (first < fluttering.size()) {
    std::size_t end = first;
    while (end < fluttering.size() && fluttering[end] == fluttering[first]) ++end;
    if (fluttering[first] && end - first < cells_in_a_row) {
      for (std::size_t i = first; i < end; ++i) fluttering[i] = false;
    }
    first = end;
  }
}

// The leap itself: from the last sample near one end of the cell's span, where near is what the
// flutter around may come to, to the first at the other end, so that a short sag shows its depth.
Section leap_within(const Motion& cell, std::span<const double> y_mm, double near_mm) {
  const auto begin = y_mm.begin() + static_cast<std::ptrdiff_t>(cell.first);
  const auto end = y_mm.begin() + static_cast<std::ptrdiff_t>(cell.end);
  const auto lowest = std::min_element(begin, end);
  const auto highest = std::max_element(begin, end);
  auto from = std::min(lowest, highest);
  auto to = std::max(lowest, highest);
  const double level_mm = *from;
  const double end_level_mm = *to;
  for (auto sample = from; sample < to; ++sample) {
    if (std::abs(*sample - level_mm) <= near_mm) from = sample;
  }
  while (to - 1 > from && std::abs(*(to - 1) - end_level_mm) <= least_turn_mm) --to;
  const auto index = [&y_mm](auto sample) {
    return static_cast<std::size_t>(sample - y_mm.begin());
  };
  return {index(from), index(to) + 1, false};
}

/// Highest, lowest and mean within one cell.
struct Cell {
  double from_mm = 0.0;
  double to_mm = 0.0;
  double high_mm = 0.0;
  double low_mm = 0.0;
  double area = 0.0;  // mm2 under the line

  [[nodiscard]] double middle_mm() const { return (from_mm + to_mm) / 2.0; }
  [[nodiscard]] double mean_mm() const {
    return to_mm > from_mm ? area / (to_mm - from_mm) : (high_mm + low_mm) / 2.0;
  }
};

std::vector<Cell> cells_of(std::span<const double> x_mm, std::span<const double> y_mm) {
  std::vector<Cell> cells;
  std::size_t number = 0;
  for (std::size_t i = 0; i < x_mm.size(); ++i) {
    const std::size_t here = cell_of(x_mm[i], x_mm.front());
    if (cells.empty() || here != number) {
      cells.push_back({x_mm[i], x_mm[i], y_mm[i], y_mm[i], 0.0});
      number = here;
    }
    Cell& cell = cells.back();
    cell.high_mm = std::max(cell.high_mm, y_mm[i]);
    cell.low_mm = std::min(cell.low_mm, y_mm[i]);
    // The way to the next sample counts here even where it leads into the next cell.
    if (i + 1 == x_mm.size()) continue;
    cell.area += (x_mm[i + 1] - x_mm[i]) * (y_mm[i] + y_mm[i + 1]) / 2.0;
    cell.to_mm = x_mm[i + 1];
  }
  return cells;
}

}  // namespace

std::vector<Section> sections(std::span<const double> x_mm, std::span<const double> y_mm) {
  TIDEOVER_EXPECT(x_mm.size() == y_mm.size(), "as many x as y");
  std::vector<Section> found;
  if (x_mm.empty()) return found;
  const std::vector<Motion> cells = motions(x_mm, y_mm);
  std::vector<bool> fluttering = fluttering_cells(cells);
  drop_short_stretches(fluttering);
  std::vector<bool> flutters(x_mm.size());
  for (std::size_t i = 0; i < x_mm.size(); ++i) {
    flutters[i] = fluttering[cell_of(x_mm[i], x_mm.front())];
  }
  for (std::size_t cell = 0; cell < cells.size(); ++cell) {
    if (cells[cell].gap || !leaps(cells, cell)) continue;
    const double near_mm = span_around_mm(cells, cell) + least_turn_mm;
    const Section leap = leap_within(cells[cell], y_mm, near_mm);
    const bool from_flutter = cell > 0 && fluttering[cell - 1];
    const bool to_flutter = cell + 1 < cells.size() && fluttering[cell + 1];
    for (std::size_t i = cells[cell].first; i < leap.first; ++i) flutters[i] = from_flutter;
    for (std::size_t i = leap.end; i < cells[cell].end; ++i) flutters[i] = to_flutter;
  }
  for (std::size_t i = 0; i < x_mm.size(); ++i) {
    if (found.empty() || found.back().flutters != flutters[i]) found.push_back({i, i, flutters[i]});
    found.back().end = i + 1;
  }
  return found;
}

Flutter flutter(std::span<const double> x_mm, std::span<const double> y_mm) {
  const std::vector<Cell> cells = cells_of(x_mm, y_mm);
  TIDEOVER_EXPECT(!cells.empty(), "a flutter has samples");
  Flutter result;
  std::vector<Point> low;
  const auto add = [&](double at_mm, const Cell& cell) {
    result.ground.push_back({at_mm, cell.high_mm});
    low.push_back({at_mm, cell.low_mm});
    result.mean.push_back({at_mm, cell.mean_mm()});
  };
  add(cells.front().from_mm, cells.front());
  for (const Cell& cell : cells) add(cell.middle_mm(), cell);
  add(cells.back().to_mm, cells.back());
  result.ground.insert(result.ground.end(), low.rbegin(), low.rend());
  return result;
}

}  // namespace tideover::drawing

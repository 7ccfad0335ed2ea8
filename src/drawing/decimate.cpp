#include "drawing/decimate.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/contract.hpp"

namespace tideover::drawing {

namespace {

/// The samples of one column of one run.
struct Column {
  double number = 0.0;
  std::size_t first = 0;
  std::size_t last = 0;
  std::size_t lowest = 0;
  std::size_t highest = 0;

  Column(double at, std::size_t sample)
      : number(at), first(sample), last(sample), lowest(sample), highest(sample) {}

  void add(std::size_t sample, std::span<const double> y) {
    last = sample;
    if (y[sample] < y[lowest]) lowest = sample;
    // The later of equal samples: a flat column keeps both of its ends.
    if (y[sample] >= y[highest]) highest = sample;
  }
};

void append(Run& run, std::size_t sample) {
  if (run.empty() || run.back() < sample) run.push_back(sample);
}

void append(Run& run, const Column& column) {
  append(run, std::min(column.lowest, column.highest));
  append(run, std::max(column.lowest, column.highest));
}

}  // namespace

std::vector<Run> decimated(std::span<const double> x, std::span<const double> y, double column) {
  TIDEOVER_EXPECT(x.size() == y.size(), "as many x as y");
  TIDEOVER_EXPECT(column > 0.0, "a column has a width");
  std::vector<Run> runs;
  std::optional<Column> open;  // the column being filled
  bool gap = false;
  std::optional<double> last_x;  // of the last finite sample
  const auto close_run = [&] {
    if (!open) return;
    append(runs.back(), *open);
    append(runs.back(), open->last);
    open.reset();
  };
  for (std::size_t i = 0; i < x.size(); ++i) {
    if (!std::isfinite(y[i])) {
      gap = true;
      continue;
    }
    const bool broken = gap && (!last_x || x[i] - *last_x >= column);
    gap = false;
    last_x = x[i];
    const double number = std::floor(x[i] / column);
    if (open && open->number == number) {
      open->add(i, y);
    } else {
      if (broken) close_run();
      const bool leaves_empty = open && number > open->number + 1.0;
      if (open) {
        append(runs.back(), *open);
        if (leaves_empty) {
          append(runs.back(), open->last);
          append(runs.back(), i);
        }
      } else {
        runs.push_back({i});
      }
      open.emplace(number, i);
    }
  }
  close_run();
  return runs;
}

}  // namespace tideover::drawing

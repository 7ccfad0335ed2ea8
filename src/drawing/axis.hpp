/// Where an axis begins, ends and carries its ticks, and what the ticks say.
#pragma once

#include <string>
#include <vector>

namespace tideover::drawing {

/// Finite, `from <= to`.
struct Range {
  double from = 0.0;
  double to = 1.0;

  [[nodiscard]] double span() const { return to - from; }
  [[nodiscard]] bool operator==(const Range&) const = default;
};

enum class Scale { Linear, Log };

struct Tick {
  double at = 0.0;
  std::string label;  ///< empty for a minor tick
};

/// A range that holds the data and ends on ticks of a 1-2-5 step, about `ticks` of them (>= 2).
/// Data that hardly moves gets a span of at least 0.5 % of its size, so that noise is not shown as
/// a signal. On a log scale both ends are powers of ten or 2 or 5 times one; the data is then above
/// zero.
[[nodiscard]] Range nice_range(Range data, int ticks, Scale scale = Scale::Linear);

/// Ticks of the finest 1-2-5 step that gives at most `at_most` (>= 1) within the range.
[[nodiscard]] std::vector<Tick> linear_ticks(Range range, int at_most);

/// Decades, or 1-2-5 where the range is short, at most `at_most` (>= 1) of them labelled; minor
/// ticks at the whole multiples between. Falls back to linear ticks inside a part of a decade.
/// range.from > 0.
[[nodiscard]] std::vector<Tick> log_ticks(Range range, int at_most);

/// Ticks of the finest human step that gives at most `at_most` (>= 1): 1-2-5 parts of a second;
/// 1, 2, 5, 10, 15, 30 s and min; 1, 2, 3, 6, 12 h; 1-2-5 days; 1-2-5 years. Within 1000 years of
/// zero, and no finer than a nanosecond.
[[nodiscard]] std::vector<Tick> time_ticks(Range seconds, int at_most);

/// A multiple of `step` with as many decimals as the step needs, U+2212 as minus, thin spaces
/// from 10 000 up, never "-0".
[[nodiscard]] std::string number_label(double value, double step);

}  // namespace tideover::drawing

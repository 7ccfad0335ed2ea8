#include "drawing/trace.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>

#include "base/contract.hpp"
#include "drawing/decimate.hpp"
#include "drawing/flutter.hpp"

namespace tideover::drawing {

namespace {

constexpr double column_mm = 0.1;
constexpr double line_width_mm = 0.3;
constexpr double straight_within_mm = 0.02;
constexpr double held_mm = 1.0;  // samples farther apart than this hold a level between them

// The value at a time between two samples; NaN where either is none.
double between(double t_s, double t0_s, double y0, double t1_s, double y1) {
  return y0 + (y1 - y0) * (t_s - t0_s) / (t1_s - t0_s);
}

using Lines = std::vector<std::vector<Point>>;

Lines plain_lines(std::span<const double> x_mm, std::span<const double> y_mm) {
  Lines lines;
  for (const Run& run : decimated(x_mm, y_mm, column_mm)) {
    std::vector<Point> line;
    line.reserve(run.size());
    for (const std::size_t i : run) line.push_back({x_mm[i], y_mm[i]});
    lines.push_back(straightened(line, straight_within_mm));
  }
  return lines;
}

// Adds lines; the first runs on from the last of those before where the two join.
void append(Lines& lines, Lines part, bool joins) {
  for (std::vector<Point>& line : part) {
    if (std::exchange(joins, false) && !lines.empty()) {
      lines.back().insert(lines.back().end(), line.begin(), line.end());
    } else {
      lines.push_back(std::move(line));
    }
  }
}

// Ground no wider than the line over it cannot be seen.
bool shows(const std::vector<Point>& ground) {
  // Upper edge from left to right, then the lower one back.
  for (std::size_t i = 0; i < ground.size() / 2; ++i) {
    const double height_mm = ground[i].y_mm - ground[ground.size() - 1 - i].y_mm;
    if (std::abs(height_mm) > line_width_mm) return true;
  }
  return false;
}

}  // namespace

Samples clipped(std::span<const double> t_s, std::span<const double> y, double from_s,
                double to_s) {
  TIDEOVER_EXPECT(t_s.size() == y.size(), "as many times as values");
  const auto index = [&t_s](auto place) { return static_cast<std::size_t>(place - t_s.begin()); };
  const std::size_t first = index(std::lower_bound(t_s.begin(), t_s.end(), from_s));
  const std::size_t end = index(std::upper_bound(t_s.begin(), t_s.end(), to_s));
  Samples kept;
  const auto enter = [&](double at_s, std::size_t next) {
    if (next == 0 || next == t_s.size()) return;
    kept.t_s.push_back(at_s);
    kept.y.push_back(between(at_s, t_s[next - 1], y[next - 1], t_s[next], y[next]));
  };
  if (first == t_s.size() || t_s[first] > from_s) enter(from_s, first);
  for (std::size_t i = first; i < end; ++i) {
    kept.t_s.push_back(t_s[i]);
    kept.y.push_back(y[i]);
  }
  if (end == 0 || t_s[end - 1] < to_s) enter(to_s, end);
  return kept;
}

double FieldScale::y_mm(double value) const {
  const double share = scale == Scale::Log
                           ? std::log(value / range.from) / std::log(range.to / range.from)
                           : (value - range.from) / range.span();
  return bottom_mm - share * (bottom_mm - top_mm);
}

std::vector<Point> straightened(const std::vector<Point>& points, double tolerance_mm) {
  if (points.size() < 3) return points;
  std::vector<Point> kept{points.front()};
  double lowest_slope =
      -std::numeric_limits<double>::infinity();  // slopes from the last kept point
  double highest_slope = std::numeric_limits<double>::infinity();  // that pass all points since
  for (std::size_t i = 1; i < points.size(); ++i) {
    const double run = points[i].x_mm - kept.back().x_mm;
    const double rise = points[i].y_mm - kept.back().y_mm;
    const bool passes = run > 0.0 && rise / run >= lowest_slope && rise / run <= highest_slope;
    if (i > 1 && !passes) {
      if (!(kept.back() == points[i - 1])) kept.push_back(points[i - 1]);
      lowest_slope = -std::numeric_limits<double>::infinity();
      highest_slope = std::numeric_limits<double>::infinity();
    }
    const double run_on = points[i].x_mm - kept.back().x_mm;
    const double rise_on = points[i].y_mm - kept.back().y_mm;
    if (run_on > 0.0) {
      lowest_slope = std::max(lowest_slope, (rise_on - tolerance_mm) / run_on);
      highest_slope = std::min(highest_slope, (rise_on + tolerance_mm) / run_on);
    } else {
      // A step: nothing may pass over it.
      lowest_slope = std::numeric_limits<double>::infinity();
    }
  }
  if (!(kept.back() == points.back())) kept.push_back(points.back());
  return kept;
}

Trace trace(std::span<const double> t_s, std::span<const double> y, const PlacedStretch& stretch,
            const FieldScale& scale) {
  const Samples samples = clipped(t_s, y, stretch.time.from_s, stretch.time.to_s);
  std::vector<double> x_mm;
  std::vector<double> y_mm;
  for (std::size_t i = 0; i < samples.t_s.size(); ++i) {
    x_mm.push_back(stretch.x_mm(samples.t_s[i]));
    y_mm.push_back(scale.y_mm(samples.y[i]));
  }
  const std::span<const double> all_x{x_mm};
  const std::span<const double> all_y{y_mm};
  Trace result;
  for (const Section& section : sections(x_mm, y_mm)) {
    const std::size_t first = section.first;
    const std::span<const double> x = all_x.subspan(first, section.end - first);
    const std::span<const double> y_of_x = all_y.subspan(first, section.end - first);
    const bool joins = first > 0 && std::isfinite(y_mm[first - 1]) && std::isfinite(y_mm[first]);
    if (section.flutters) {
      Flutter part = flutter(x, y_of_x);
      // A level held until then is drawn level, not as a slope up to the mean.
      if (joins && x_mm[first] - x_mm[first - 1] > held_mm) {
        part.mean.insert(part.mean.begin(), {x_mm[first], y_mm[first]});
      }
      append(result.lines, {straightened(part.mean, straight_within_mm)}, joins);
      if (shows(part.ground)) result.grounds.push_back(std::move(part.ground));
    } else {
      append(result.lines, plain_lines(x, y_of_x), joins);
    }
  }
  return result;
}

}  // namespace tideover::drawing

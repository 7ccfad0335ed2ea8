#include "numeric/fade_forecast.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <span>
#include <utility>

#include "base/contract.hpp"

namespace tideover::numeric {

namespace {

using Numbers = std::span<const double>;

constexpr std::size_t line_count = 4;
/// The least record a line is tried on, and how many origins a record is cut at, about.
constexpr std::size_t first_origin = 16;
constexpr std::size_t origin_count = 28;
/// The residual after a jump dies out within the record; one that never did would be a trend.
constexpr double longest_memory = 0.98;
/// P5 to P95 of Student's distribution, one side, for one to three degrees of freedom.
constexpr std::array<double, 3> student_95{6.314, 2.920, 2.353};

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  if (values.size() % 2 == 1) return *middle;
  return 0.5 * (*middle + *std::max_element(values.begin(), middle));
}

struct Line {
  double start = 0.0;
  double slope = 0.0;
  bool is_logarithm = false;
  [[nodiscard]] double at(double x) const {
    const double y = start + slope * x;
    return is_logarithm ? std::exp(y) : y;
  }
};

Line robust_line(Numbers x, Numbers y, bool is_logarithm) {
  std::vector<double> height(y.begin(), y.end());
  if (is_logarithm) {
    for (double& h : height) h = std::log(h);
  }
  std::vector<double> slopes;
  slopes.reserve(x.size() * (x.size() - 1) / 2);
  for (std::size_t i = 0; i < x.size(); ++i) {
    for (std::size_t j = i + 1; j < x.size(); ++j) {
      slopes.push_back((height[j] - height[i]) / (x[j] - x[i]));
    }
  }
  Line line{0.0, median(std::move(slopes)), is_logarithm};
  for (std::size_t i = 0; i < x.size(); ++i) height[i] -= line.slope * x[i];
  line.start = median(std::move(height));
  return line;
}

using Lines = std::array<Line, line_count>;

Lines lines_through(Numbers x, Numbers y) {
  const std::size_t from = x.size() - x.size() / 2;
  return {robust_line(x, y, false), robust_line(x.subspan(from), y.subspan(from), false),
          robust_line(x, y, true), robust_line(x.subspan(from), y.subspan(from), true)};
}

/// Where a record is cut, and how much of what follows is foretold from there: up to half as much
/// as was seen.
struct Cut {
  std::size_t origin = 0;
  std::size_t end = 0;
};

std::vector<Cut> cuts_of(std::size_t count) {
  std::vector<Cut> cuts;
  const std::size_t step = std::max<std::size_t>(1, count / origin_count);
  for (std::size_t o = std::max(first_origin, count / 4); o + 1 < count; o += step) {
    cuts.push_back({o, std::min(o + o / 2, count)});
  }
  return cuts;
}

/// The lines through the record up to each cut, made once.
class CutLines {
 public:
  CutLines(Numbers x, Numbers y) : x_(x), y_(y), made_(x.size() + 1) {}
  const Lines& up_to(std::size_t count) {
    auto& lines = made_[count];
    if (!lines) lines = lines_through(x_.first(count), y_.first(count));
    return *lines;
  }

 private:
  Numbers x_;
  Numbers y_;
  std::vector<std::optional<Lines>> made_;
};

std::array<double, line_count> weights_of(CutLines& lines, Numbers x, Numbers y) {
  std::array<double, line_count> square{};
  std::size_t count = 0;
  for (const Cut& cut : cuts_of(x.size())) {
    const Lines& cut_lines = lines.up_to(cut.origin);
    for (std::size_t k = cut.origin; k < cut.end; ++k, ++count) {
      for (std::size_t m = 0; m < line_count; ++m) {
        const double error = y[k] - cut_lines[m].at(x[k]);
        square[m] += error * error;
      }
    }
  }
  std::array<double, line_count> weights{};
  weights.fill(1.0 / line_count);
  // Fewer errors than this tell nothing of which line is better.
  constexpr std::size_t least_errors = 20;
  const double most = *std::ranges::max_element(square);
  if (count < least_errors || most <= 0.0) return weights;
  double sum = 0.0;
  for (std::size_t m = 0; m < line_count; ++m) {
    weights[m] = 1.0 / std::max(square[m], 1e-12 * most);
    sum += weights[m];
  }
  for (double& weight : weights) weight /= sum;
  return weights;
}

/// The middle: the weighed lines, and what is left of the last residual.
struct Middle {
  Lines lines;
  std::array<double, line_count> weights{};
  double left = 0.0;    ///< residual at the end of the record
  double memory = 0.0;  ///< share of it that is left a spacing later
  double spacing = 1.0;
  double end_x = 0.0;

  [[nodiscard]] double trend(double x) const {
    double sum = 0.0;
    for (std::size_t m = 0; m < line_count; ++m) sum += weights[m] * lines[m].at(x);
    return sum;
  }
  [[nodiscard]] double at(double x) const {
    return trend(x) + left * std::pow(memory, (x - end_x) / spacing);
  }
};

double memory_of(Numbers residuals) {
  const double mean = std::accumulate(residuals.begin(), residuals.end(), 0.0) /
                      static_cast<double>(residuals.size());
  double together = 0.0;
  double square = 0.0;
  for (std::size_t k = 0; k + 1 < residuals.size(); ++k) {
    together += (residuals[k] - mean) * (residuals[k + 1] - mean);
    square += (residuals[k] - mean) * (residuals[k] - mean);
  }
  return square > 0.0 ? std::clamp(together / square, 0.0, longest_memory) : 0.0;
}

Middle middle_of(CutLines& lines, Numbers x, Numbers y) {
  Middle middle{lines.up_to(x.size()), weights_of(lines, x, y)};
  std::vector<double> residuals;
  residuals.reserve(x.size());
  for (std::size_t k = x.size() / 2; k < x.size(); ++k) {
    residuals.push_back(y[k] - middle.trend(x[k]));
  }
  middle.memory = memory_of(residuals);
  middle.left = median({residuals.end() - 3, residuals.end()});
  middle.end_x = x.back();
  middle.spacing = (x.back() - x.front()) / static_cast<double>(x.size() - 1);
  return middle;
}

/// Mean of square error over lead, over all cuts.
double variance_rate_of(CutLines& lines, Numbers x, Numbers y) {
  double sum = 0.0;
  std::size_t count = 0;
  for (const Cut& cut : cuts_of(x.size())) {
    const Middle middle = middle_of(lines, x.first(cut.origin), y.first(cut.origin));
    for (std::size_t k = cut.origin; k < cut.end; ++k, ++count) {
      const double error = y[k] - middle.at(x[k]);
      sum += error * error / (x[k] - middle.end_x);
    }
  }
  return sum / static_cast<double>(count);
}

double student_of(std::size_t count) {
  const auto first = static_cast<double>(cuts_of(count).front().origin);
  const double windows = std::log(static_cast<double>(count) / first) / std::log(1.5);
  const auto whole = static_cast<std::size_t>(std::max(windows, 1.0));
  return student_95[std::min(whole, student_95.size()) - 1];
}

void take_medians(std::vector<double>& x, std::vector<double>& y) {
  const std::size_t width = (x.size() + most_fade_points - 1) / most_fade_points;
  if (width <= 1) return;
  std::vector<double> stretch_x;
  std::vector<double> stretch_y;
  stretch_x.reserve(most_fade_points);
  stretch_y.reserve(most_fade_points);
  // The last stretch is whole, so that the record ends where it ended.
  for (std::size_t end = x.size() % width == 0 ? width : x.size() % width; end <= x.size();
       end += width) {
    const std::size_t begin = end > width ? end - width : 0;
    const auto part = [&](const std::vector<double>& of) {
      return median({of.begin() + static_cast<std::ptrdiff_t>(begin),
                     of.begin() + static_cast<std::ptrdiff_t>(end)});
    };
    stretch_x.push_back(part(x));
    stretch_y.push_back(part(y));
  }
  x = std::move(stretch_x);
  y = std::move(stretch_y);
}

}  // namespace

FadeForecast forecast_fade(std::vector<double> x, std::vector<double> y,
                           const std::vector<double>& at) {
  TIDEOVER_EXPECT(x.size() == y.size() && x.size() >= least_fade_points, "a record long enough");
  TIDEOVER_EXPECT(std::ranges::adjacent_find(x, std::greater_equal<>()) == x.end(), "x rises");
  TIDEOVER_EXPECT(std::ranges::all_of(y, [](double v) { return v > 0.0; }), "y above 0");
  TIDEOVER_EXPECT(at.empty() || at.front() > x.back(), "foretold is what comes after the record");
  FadeForecast forecast;
  forecast.tried_until = x.back() + 0.5 * (x.back() - x.front());
  take_medians(x, y);
  CutLines lines(x, y);
  const Middle middle = middle_of(lines, x, y);
  forecast.weights = middle.weights;
  forecast.variance_rate = variance_rate_of(lines, x, y);
  forecast.student = student_of(x.size());
  const double least = 1e-6 * *std::ranges::min_element(y);
  forecast.points.reserve(at.size());
  for (const double to : at) {
    const double half = forecast.student * std::sqrt(forecast.variance_rate * (to - middle.end_x));
    const double value = std::max(middle.at(to), least);
    forecast.points.push_back({to, std::max(value - half, 0.0), value, value + half});
  }
  return forecast;
}

}  // namespace tideover::numeric

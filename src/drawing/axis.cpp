#include "drawing/axis.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

#include <fmt/format.h>

#include "base/contract.hpp"
#include "drawing/time_words.hpp"

namespace tideover::drawing {

namespace {

// Shares of a step by which a tick may miss the end of a range and still belong to it.
constexpr double slack = 1e-6;

/// mantissa * 10^exponent with mantissa 1, 2 or 5: kept apart so that multiples come out exact.
struct DecimalStep {
  int mantissa = 1;
  int exponent = 0;

  [[nodiscard]] double multiple(double count) const {
    const double power = std::pow(10.0, std::abs(exponent));
    return exponent < 0 ? count * mantissa / power : count * mantissa * power;
  }
  [[nodiscard]] DecimalStep coarser() const {
    if (mantissa == 1) return {2, exponent};
    if (mantissa == 2) return {5, exponent};
    return {1, exponent + 1};
  }
};

// The finest 1-2-5 step not below `least` (> 0).
DecimalStep step_at_least(double least) {
  DecimalStep step{1, static_cast<int>(std::floor(std::log10(least))) - 1};
  while (step.multiple(1.0) < least * (1.0 - slack)) step = step.coarser();
  return step;
}

double first_multiple(double from, double step) { return std::ceil(from / step - slack); }
double last_multiple(double to, double step) { return std::floor(to / step + slack); }

int multiples_within(Range range, double step) {
  return static_cast<int>(last_multiple(range.to, step) - first_multiple(range.from, step)) + 1;
}

Range widened(Range data) {
  const double size = std::max(std::abs(data.from), std::abs(data.to));
  const double least = size > 0.0 ? 0.005 * size : 1.0;
  if (data.span() >= least) return data;
  const double middle = data.from + 0.5 * data.span();
  return {middle - 0.5 * least, middle + 0.5 * least};
}

void expect_range(Range range) {
  TIDEOVER_EXPECT(std::isfinite(range.from) && std::isfinite(range.to), "a range is finite");
  TIDEOVER_EXPECT(range.from <= range.to, "a range runs upwards");
}

// 1-2-5 marks on a log axis count upwards: ..., 0.5, 1, 2, 5, 10, ...
double log_mark(int index) {
  static constexpr std::array mantissas{1, 2, 5};
  const int decade = index >= 0 ? index / 3 : -((2 - index) / 3);
  return DecimalStep{mantissas[static_cast<std::size_t>(index - 3 * decade)], decade}.multiple(1);
}

int last_log_mark_below(double value) {
  int index = 3 * static_cast<int>(std::floor(std::log10(value))) - 1;
  while (log_mark(index + 1) <= value * (1.0 + slack)) ++index;
  return index;
}

std::string power_label(double value) {
  static constexpr std::array digits{"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};
  const int exponent = static_cast<int>(std::floor(std::log10(value) + slack));
  const int mantissa = static_cast<int>(std::lround(value / std::pow(10.0, exponent)));
  std::string text = mantissa == 1 ? "10" : fmt::format("{}·10", mantissa);
  if (exponent < 0) text += "⁻";
  for (const char digit : std::to_string(std::abs(exponent))) {
    text += digits[static_cast<std::size_t>(digit - '0')];
  }
  return text;
}

std::string log_label(double value) {
  if (value < 0.9e-3 || value > 1.1e5) return power_label(value);
  return number_label(value, value);
}

bool labelled_on_log(int index, int decades_apart, bool parts) {
  if (parts) return true;
  const int decade = index / 3;
  return index % 3 == 0 && decade % decades_apart == 0;
}

void add_minor_log_ticks(Range range, std::vector<Tick>& ticks) {
  std::vector<Tick> minor;
  const int first = static_cast<int>(std::floor(std::log10(range.from) + slack));
  const int last = static_cast<int>(std::ceil(std::log10(range.to) - slack));
  if (last - first > 8) return;
  for (int decade = first; decade < last; ++decade) {
    for (int digit = 1; digit <= 9; ++digit) {
      const double at = DecimalStep{digit, decade}.multiple(1);
      const auto same = [at](const Tick& tick) { return std::abs(tick.at - at) < slack * at; };
      const bool within = at >= range.from * (1 - slack) && at <= range.to * (1 + slack);
      if (within && std::none_of(ticks.begin(), ticks.end(), same)) minor.push_back({at, ""});
    }
  }
  ticks.insert(ticks.end(), minor.begin(), minor.end());
  std::sort(ticks.begin(), ticks.end(), [](const Tick& a, const Tick& b) { return a.at < b.at; });
}

// From a second to half a day; finer steps are 1-2-5 parts of a second, coarser ones of days,
// years.
constexpr std::array clock_steps_s{1.0,      2.0,        5.0,        10.0,       15.0,       30.0,
                                   minute_s, 120.0,      300.0,      600.0,      900.0,      1800.0,
                                   hour_s,   2 * hour_s, 3 * hour_s, 6 * hour_s, 12 * hour_s};

std::vector<double> human_steps_s() {
  std::vector<double> steps;
  for (double part = 1e9; part >= 10.0; part /= 10.0) {
    for (const double mantissa : {1.0, 2.0, 5.0}) steps.push_back(mantissa / part);
  }
  steps.insert(steps.end(), clock_steps_s.begin(), clock_steps_s.end());
  for (const double days : {1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0}) steps.push_back(days * day_s);
  for (const double years : {1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0}) {
    steps.push_back(years * year_s);
  }
  return steps;
}

}  // namespace

Range nice_range(Range data, int ticks, Scale scale) {
  expect_range(data);
  TIDEOVER_EXPECT(ticks >= 2, "an axis has two ticks");
  if (scale == Scale::Log) {
    TIDEOVER_EXPECT(data.from > 0.0, "a log scale starts above zero");
    const int low = last_log_mark_below(data.from);
    int high = last_log_mark_below(data.to);
    if (high == low || log_mark(high) < data.to * (1.0 - slack)) ++high;
    return {log_mark(low), log_mark(high)};
  }
  const Range wide = widened(data);
  const DecimalStep step = step_at_least(wide.span() / ticks);
  const double size = step.multiple(1.0);
  return {step.multiple(std::floor(wide.from / size + slack)),
          step.multiple(std::ceil(wide.to / size - slack))};
}

std::vector<Tick> linear_ticks(Range range, int at_most) {
  expect_range(range);
  TIDEOVER_EXPECT(at_most >= 1, "at least one tick");
  if (!(range.span() > 0.0)) return {};
  DecimalStep step = step_at_least(range.span() / (at_most + 1));
  while (multiples_within(range, step.multiple(1)) > at_most) step = step.coarser();
  const double size = step.multiple(1.0);
  std::vector<Tick> ticks;
  const double first = first_multiple(range.from, size);
  for (int i = 0; i < multiples_within(range, size); ++i) {
    const double at = step.multiple(first + i);
    ticks.push_back({at, number_label(at, size)});
  }
  return ticks;
}

std::vector<Tick> log_ticks(Range range, int at_most) {
  expect_range(range);
  TIDEOVER_EXPECT(range.from > 0.0, "a log scale starts above zero");
  TIDEOVER_EXPECT(at_most >= 1, "at least one tick");
  const int last = last_log_mark_below(range.to);
  int first = last_log_mark_below(range.from);
  if (log_mark(first) < range.from * (1.0 - slack)) ++first;
  const int marks = last - first + 1;
  if (marks < 2) return linear_ticks(range, at_most);
  const bool parts = marks <= at_most;
  int decades_apart = 1;
  while ((marks / 3 + 1) / decades_apart + 1 > at_most && decades_apart < marks) ++decades_apart;
  std::vector<Tick> ticks;
  for (int index = first; index <= last; ++index) {
    if (!labelled_on_log(index, decades_apart, parts)) continue;
    ticks.push_back({log_mark(index), log_label(log_mark(index))});
  }
  if (decades_apart == 1) add_minor_log_ticks(range, ticks);
  return ticks;
}

std::vector<Tick> time_ticks(Range seconds, int at_most) {
  TIDEOVER_EXPECT(std::isfinite(seconds.span()) && seconds.span() >= 0.0, "a range of time");
  TIDEOVER_EXPECT(at_most >= 1, "at least one tick");
  static const std::vector<double> steps = human_steps_s();
  for (const double step : steps) {
    if (seconds.span() / step > at_most + 1) continue;
    const int count = multiples_within(seconds, step);
    if (count > at_most) continue;
    std::vector<Tick> ticks;
    for (int i = 0; i < count; ++i) {
      // + 0.0 turns a negative zero into a plain one.
      const double at = (first_multiple(seconds.from, step) + i) * step + 0.0;
      ticks.push_back({at, time_label(at, step)});
    }
    return ticks;
  }
  return {};
}

std::string number_label(double value, double step) {
  TIDEOVER_EXPECT(std::isfinite(value) && step > 0.0, "a label needs a number and a step");
  const int decimals = std::clamp(-static_cast<int>(std::floor(std::log10(step) + slack)), 0, 12);
  std::string digits = fmt::format("{:.{}f}", std::abs(value), decimals);
  const bool zero = digits.find_first_not_of("0.") == std::string::npos;
  const std::size_t whole = std::min(digits.find('.'), digits.size());
  if (whole >= 5) {
    for (std::size_t at = whole; at > 3; at -= 3) digits.insert(at - 3, "\u2009");
  }
  return (value < 0.0 && !zero ? "\u2212" : "") + digits;
}

}  // namespace tideover::drawing

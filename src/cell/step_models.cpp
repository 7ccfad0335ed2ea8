#include "cell/step_models.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace tideover::cell {
namespace {

// A current below this share of the largest is rest at most: half of it where it keeps one sign, as
// the end of a charge does and noise does not.
constexpr double most_rest_share = 0.01;
constexpr double least_rest_share = 2e-4;
constexpr double least_rest_a = 0.0005;  // no tester of cells is better
// Median of the size of normal noise to six of its standard deviations.
constexpr double rest_over_median = 9.0;
constexpr double noisy_share = 0.1;  // of the samples that have the rarer sign
// Resolution and noise of a current under load.
constexpr double floor_share = 0.002;
// Regulation and noise of a tester's constant voltage.
constexpr double least_hold_v = 0.004;
// Samples that may stray before a model ends.
constexpr std::size_t strays = 2;
// How many samples settle the level that the others are held against.
constexpr double settling_samples = 20.0;

/// From the noise of what flows at rest.
double rest_current_a(const Log& log, double largest_a) {
  std::vector<double> small_a;
  std::size_t negative = 0;
  const std::size_t stride = std::max<std::size_t>(1, log.size() / 50000);
  small_a.reserve(log.size() / stride + 1);
  for (std::size_t k = 0; k < log.size(); k += stride) {
    const double size_a = std::abs(log.current_a[k]);
    if (size_a > most_rest_share * largest_a) continue;
    small_a.push_back(size_a);
    if (log.current_a[k] < 0.0) ++negative;
  }
  const double least_a = std::max(least_rest_a, least_rest_share * largest_a);
  const double most_a = std::max(least_a, most_rest_share * largest_a);
  if (small_a.empty()) return std::max(least_a, 0.5 * most_a);
  const auto count = static_cast<double>(small_a.size());
  const auto rarer = std::min(static_cast<double>(negative), count - static_cast<double>(negative));
  const bool is_noise = rarer > noisy_share * count;
  const auto middle = small_a.begin() + static_cast<std::ptrdiff_t>(small_a.size() / 2);
  std::nth_element(small_a.begin(), middle, small_a.end());
  return std::clamp(rest_over_median * *middle, least_a,
                    is_noise ? most_a : std::max(least_a, 0.5 * most_a));
}

/// Median of the first few values: a regulator takes a sample or two to settle.
template <class ValueOf>
double first_level(std::size_t first, std::size_t end, const ValueOf& value) {
  std::array<double, 5> values{};
  const std::size_t count = std::min(values.size(), end - first);
  for (std::size_t i = 0; i < count; ++i) values[i] = value(first + i);
  std::sort(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(count));
  return values[count / 2];
}

/// The first sample from `first` on that no longer keeps `value(k)` within `slack(level)`. The
/// level is a running mean: it follows noise down, and a slow drift only while it is young.
template <class ValueOf, class SlackOf>
std::size_t end_of_constant(std::size_t first, std::size_t end, const ValueOf& value,
                            const SlackOf& slack) {
  double level = first_level(first, end, value);
  double count = 1.0;
  std::size_t last_good = first;
  for (std::size_t k = first + 1; k < end; ++k) {
    const double here = value(k);
    if (std::abs(here - level) > slack(level)) {
      if (k - last_good > strays) break;
      continue;
    }
    last_good = k;
    count += 1.0;
    if (count < settling_samples) level += (here - level) / count;
  }
  return last_good + 1;
}

}  // namespace

StepTolerance tolerance_of(const Log& log) {
  double largest_a = 0.0;
  for (const double current_a : log.current_a) largest_a = std::max(largest_a, std::abs(current_a));
  StepTolerance tolerance;
  tolerance.rest_a = rest_current_a(log, largest_a);
  tolerance.floor_a = std::max(0.5 * tolerance.rest_a, floor_share * largest_a);
  tolerance.hold_v = least_hold_v;
  return tolerance;
}

Fit longest_fit(const Log& log, const StepTolerance& tolerance, std::size_t first,
                std::size_t end) {
  const auto current_slack = [&](double level) {
    return std::max(tolerance.floor_a, tolerance.share * std::abs(level));
  };
  const std::size_t current_end = end_of_constant(
      first, end, [&](std::size_t k) { return log.current_a[k]; }, current_slack);
  const std::size_t power_end = end_of_constant(
      first, end, [&](std::size_t k) { return log.current_a[k] * log.voltage_v[k]; },
      [&](double level) {
        return std::max(tolerance.floor_a * log.voltage_v[first],
                        tolerance.share * std::abs(level));
      });
  // A voltage is held only while charging; in a discharge it merely rests on a plateau.
  std::size_t voltage_end = first + 1;
  if (log.current_a[first] > 0.0) {
    voltage_end = end_of_constant(
        first, end, [&](std::size_t k) { return log.voltage_v[k]; },
        [&](double) { return tolerance.hold_v; });
    const bool falls =
        log.current_a[voltage_end - 1] < log.current_a[first] - current_slack(log.current_a[first]);
    if (!falls) voltage_end = first + 1;
  }
  Fit best{Step::Kind::ConstantCurrent, current_end};
  if (voltage_end > best.end + strays) best = {Step::Kind::ConstantVoltage, voltage_end};
  if (power_end > best.end + strays) best = {Step::Kind::ConstantPower, power_end};
  return best;
}

}  // namespace tideover::cell

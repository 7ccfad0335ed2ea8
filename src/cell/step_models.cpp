#include "cell/step_models.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace tideover::cell {
namespace {

// A current below this share of the largest may be rest with its noise; what keeps one sign there,
// as an offset does and the end of a charge, is rest up to an eighth of it.
constexpr double most_rest_share = 0.04;
constexpr double one_sided_share = 0.125;
constexpr double least_rest_share = 2e-4;
constexpr double least_rest_a = 0.0005;  // no tester of cells is better
constexpr double noisy_share = 0.1;      // of the samples that have the rarer sign
// Six standard deviations of normal noise over the median difference of two samples.
constexpr double rest_over_difference = 6.0 / 0.954;
constexpr double rest_over_median = 9.0;
// Resolution and noise of a current under load.
constexpr double floor_share = 0.002;
// Regulation and noise of a tester's constant voltage.
constexpr double least_hold_v = 0.004;
// Samples that may stray before a model ends.
constexpr std::size_t strays = 2;
// How many samples settle the level that the others are held against.
constexpr double settling_samples = 20.0;

double median_of(std::vector<double>& values_si) {
  const auto middle = values_si.begin() + static_cast<std::ptrdiff_t>(values_si.size() / 2);
  std::nth_element(values_si.begin(), middle, values_si.end());
  return *middle;
}

/// From the noise of what flows at rest.
double rest_current_a(const Log& log, double largest_a) {
  const double most_a = std::max(least_rest_a, most_rest_share * largest_a);
  const double least_a = std::max(least_rest_a, least_rest_share * largest_a);
  const double one_sided_a = std::max(least_a, one_sided_share * most_a);
  std::vector<double> sizes_a;
  std::vector<double> differences_a;
  std::size_t negative = 0;
  const std::size_t stride = std::max<std::size_t>(1, log.size() / 50000);
  sizes_a.reserve(log.size() / stride + 1);
  differences_a.reserve(log.size() / stride + 1);
  for (std::size_t k = 1; k < log.size(); k += stride) {
    const double here_a = log.current_a[k];
    const double before_a = log.current_a[k - 1];
    if (std::max(std::abs(here_a), std::abs(before_a)) > most_a) continue;
    sizes_a.push_back(std::abs(here_a));
    differences_a.push_back(std::abs(here_a - before_a));
    if (here_a < 0.0) ++negative;
  }
  if (sizes_a.empty()) return one_sided_a;
  const std::size_t rarer = std::min(negative, sizes_a.size() - negative);
  const bool is_noise =
      static_cast<double>(rarer) > noisy_share * static_cast<double>(sizes_a.size());
  if (is_noise) return std::clamp(rest_over_difference * median_of(differences_a), least_a, most_a);
  return std::clamp(rest_over_median * median_of(sizes_a), least_a, one_sided_a);
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

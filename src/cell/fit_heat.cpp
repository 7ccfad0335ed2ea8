#include "cell/fit_heat.hpp"

#include <algorithm>
#include <cmath>

#include "numeric/least_squares.hpp"

namespace tideover::cell {

namespace {

constexpr double least_rise_k = 2.0;
constexpr double deviation_k = 0.5;
/// Temperatures of one test are off together: it counts for this many readings.
constexpr double readings_a_test = 30.0;
constexpr double log_far = 1.0;  ///< from what the class says

double rise_k(const FitTest& test) {
  double low = 1e9;
  double high = 0.0;
  for (const FitSample& sample : test.samples) {
    low = std::min(low, sample.temperature_k);
    high = std::max(high, sample.temperature_k);
  }
  return low > 0.0 ? high - low : 0.0;
}

/// Errors of the case's temperature, calculated by the law itself from the measured current.
void errors_of(const CellLaw& law, const FitTest& test, const TestCourse& course, double weight,
               std::vector<double>& errors) {
  CellState state;
  state.charge_share = course.start_share;
  state.temperature_k = test.samples.front().temperature_k;
  for (const FitSample& sample : test.samples) {
    if (sample.is_behind_gap) {
      state = {};
      state.temperature_k = sample.temperature_k;
    }
    const double air_k =
        sample.ambient_k > 0.0 ? sample.ambient_k : test.samples.front().temperature_k;
    if (sample.dt_s > 0.0) {
      const double driven_a = sample.mean_a == 0.0 ? 0.0 : sample.mean_a + course.offset_a;
      advance(law, state, driven_a, sample.dt_s, air_k);
    }
    errors.push_back(weight * std::sqrt(std::min(sample.dt_s, 60.0)) *
                     (state.temperature_k - sample.temperature_k));
  }
}

}  // namespace

std::optional<HeatFit> fit_heat(const CellLaw& law, const std::vector<FitTest>& tests,
                                const std::vector<TestCourse>& courses,
                                const std::vector<double>& capacities_c) {
  std::vector<std::size_t> warm;
  int count = 2;
  for (std::size_t n = 0; n < tests.size(); ++n) {
    const bool has_gaps = std::ranges::any_of(
        tests[n].samples, [](const FitSample& sample) { return sample.is_behind_gap; });
    if (rise_k(tests[n]) < least_rise_k || has_gaps) continue;
    warm.push_back(n);
    count += static_cast<int>(tests[n].samples.size());
  }
  if (warm.empty()) return std::nullopt;
  const double heat_ln = std::log(law.heat_j_per_k);
  const double path_ln = std::log(law.to_air_k_per_w);
  numeric::LeastSquaresTask task;
  task.residual_count = count;
  task.residuals = [&](std::span<const double> at, std::span<double> out) {
    CellLaw tried = law;
    tried.heat_j_per_k = std::exp(at[0]);
    tried.to_air_k_per_w = std::exp(at[1]);
    std::vector<double> errors;
    errors.reserve(out.size());
    for (const std::size_t n : warm) {
      tried.capacity_c = capacities_c[n];
      double sum_s = 0.0;
      for (const FitSample& sample : tests[n].samples) sum_s += std::min(sample.dt_s, 60.0);
      errors_of(tried, tests[n], courses[n], std::sqrt(readings_a_test / sum_s) / deviation_k,
                errors);
    }
    errors.push_back((at[0] - heat_ln) / log_far);
    errors.push_back((at[1] - path_ln) / log_far);
    std::ranges::copy(errors, out.begin());
  };
  const auto fit = numeric::fit_least_squares(task, {heat_ln, path_ln});
  HeatFit result{std::exp(fit.parameters[0]), std::exp(fit.parameters[1]), fit.standard_errors[0],
                 fit.standard_errors[1], 0.0};
  result.rms_k = deviation_k * std::sqrt(fit.sum_of_squares /
                                         (readings_a_test * static_cast<double>(warm.size())));
  return result;
}

}  // namespace tideover::cell

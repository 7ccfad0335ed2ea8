#include "cell/fit_test.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>

namespace tideover::cell {

namespace {

constexpr double kelvin = 273.15;
/// Standard deviation of a voltage, model's shortcomings included, and for how many independent
/// readings a whole test counts: what the residuals of good fits show (docs/cells.md).
constexpr double voltage_deviation_v = 0.010;
constexpr double readings_a_test = 1000.0;
/// A sample speaks for the time before it, within these bounds.
constexpr double least_weight_s = 0.05;
constexpr double most_weight_s = 60.0;

bool begins_test(const Section& section, bool has_counter) {
  return section.begins != Section::Begins::Gap || !has_counter;
}

/// Charge since the sample before: by the counter if there is one, else by the current.
double moved_c(const Log& log, std::size_t k) {
  if (!log.counter_c.empty()) return log.counter_c[k] - log.counter_c[k - 1];
  return 0.5 * (log.current_a[k] + log.current_a[k - 1]) * (log.time_s[k] - log.time_s[k - 1]);
}

FitSample sample_of(const Log& log, std::size_t k) {
  FitSample sample;
  sample.time_s = log.time_s[k];
  sample.current_a = log.current_a[k];
  sample.voltage_v = log.voltage_v[k];
  if (!log.temperature_c.empty()) sample.temperature_k = log.temperature_c[k] + kelvin;
  if (!log.ambient_c.empty()) sample.ambient_k = log.ambient_c[k] + kelvin;
  return sample;
}

/// Mean current between two samples. A tester steps its current just after a sample as often as
/// just before one; the counter knows, and where it is too coarse to tell, the later current holds.
double mean_current_a(const Log& log, std::size_t k, double dt_s) {
  const double now_a = log.current_a[k];
  const double before_a = log.current_a[k - 1];
  if (log.counter_c.empty()) return now_a;
  const double counted_a = moved_c(log, k) / dt_s;
  const double slack_a = 0.02 * std::max(std::fabs(now_a), std::fabs(before_a)) + 1.0 / dt_s * 0.1;
  const bool fits = counted_a > std::min(now_a, before_a) - slack_a &&
                    counted_a < std::max(now_a, before_a) + slack_a;
  return fits ? std::clamp(counted_a, std::min(now_a, before_a), std::max(now_a, before_a))
              : counted_a;
}

void take_section(const Log& log, const Section& section, FitTest& test) {
  for (std::size_t k = section.first; k < section.end; ++k) {
    FitSample sample = sample_of(log, k);
    if (k > section.first) {
      sample.dt_s = log.time_s[k] - log.time_s[k - 1];
      if (sample.dt_s > 0.0) sample.mean_a = mean_current_a(log, k, sample.dt_s);
    } else if (!test.samples.empty()) {
      sample.is_behind_gap = true;
      sample.unseen_c = log.counter_c[k] - log.counter_c[k - 1];
    }
    test.samples.push_back(sample);
  }
}

/// Whether `next` can be merged into the stretch that ends with `held`.
bool is_steady(const FitSample& held, const FitSample& next, double slack) {
  return !next.is_behind_gap && next.dt_s > 0.0 && held.dt_s > 0.0 &&
         std::fabs(next.current_a - held.current_a) <=
             slack * 0.01 * std::max(std::fabs(held.current_a), 0.01) &&
         std::fabs(next.voltage_v - held.voltage_v) <= slack * 1e-3 &&
         held.dt_s + next.dt_s <= most_weight_s;
}

std::vector<FitSample> thinned(const std::vector<FitSample>& samples, double slack) {
  std::vector<FitSample> kept;
  kept.reserve(samples.size());
  for (const FitSample& sample : samples) {
    if (!kept.empty() && is_steady(kept.back(), sample, slack)) {
      FitSample merged = sample;
      const FitSample& held = kept.back();
      merged.dt_s = held.dt_s + sample.dt_s;
      merged.mean_a = (held.mean_a * held.dt_s + sample.mean_a * sample.dt_s) / merged.dt_s;
      merged.is_behind_gap = held.is_behind_gap;
      merged.unseen_c = held.unseen_c;
      kept.back() = merged;
    } else {
      kept.push_back(sample);
    }
  }
  return kept;
}

void weigh(FitTest& test) {
  double sum_s = 0.0;
  for (FitSample& sample : test.samples) {
    sample.weight = std::sqrt(std::clamp(sample.dt_s, least_weight_s, most_weight_s));
    sum_s += sample.weight * sample.weight;
  }
  const double scale = std::sqrt(readings_a_test / sum_s) / voltage_deviation_v;
  for (FitSample& sample : test.samples) sample.weight *= scale;
}

void sum_up(FitTest& test) {
  double count_c = 0.0;
  test.lowest_v = test.samples.front().voltage_v;
  for (const FitSample& sample : test.samples) {
    const double moved = sample.mean_a * sample.dt_s;
    count_c += moved + sample.unseen_c;
    test.lowest_c = std::min(test.lowest_c, count_c);
    test.highest_c = std::max(test.highest_c, count_c);
    test.lowest_v = std::min(test.lowest_v, sample.voltage_v);
    if (moved > 0.0) {
      test.charging_s += sample.dt_s;
      test.charged_c += moved;
    } else if (moved < 0.0) {
      test.discharging_s += sample.dt_s;
      test.discharged_c -= moved;
    }
  }
  test.last_c = count_c;
}

}  // namespace

std::vector<FitTest> tests_of(const Log& log, std::size_t most_samples) {
  std::vector<FitTest> tests;
  for (const Section& section : log.sections) {
    if (section.end <= section.first) continue;
    if (tests.empty() || begins_test(section, !log.counter_c.empty())) {
      tests.emplace_back();
      const std::string file = std::filesystem::path(log.file).filename().string();
      tests.back().name = section.label.empty() ? file : file + " " + section.label;
    }
    take_section(log, section, tests.back());
  }
  std::erase_if(tests, [](const FitTest& test) { return test.samples.size() < 3; });
  for (FitTest& test : tests) {
    sum_up(test);
    for (double slack = 1.0; test.samples.size() > most_samples && slack < 100.0; slack *= 2.0) {
      test.samples = thinned(test.samples, slack);
    }
    weigh(test);
  }
  return tests;
}

}  // namespace tideover::cell

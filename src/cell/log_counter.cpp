#include "cell/log_counter.hpp"

#include <algorithm>
#include <cmath>

namespace tideover::cell {
namespace {

// Below this share of the largest current a cell rests: offset and noise of a shunt.
constexpr double rest_share = 0.002;
// A counter that moves between half and twice the integral follows it; else something happened.
constexpr double least_ratio = 0.5;
constexpr double most_ratio = 2.0;

double largest_of(std::span<const double> values_si) {
  double largest_si = 0.0;
  for (const double value : values_si) largest_si = std::max(largest_si, std::abs(value));
  return largest_si;
}

struct Stretch {
  double counted_as = 0.0;
  double passed_as = 0.0;  ///< integral of the current
};

/// Calls `deed` for every stretch in which the current keeps its direction.
template <class Deed>
void each_stretch(std::span<const double> counter_as, const CurrentOverTime& seen,
                  const Deed& deed) {
  const double rest_a = rest_share * largest_of(seen.current_a);
  std::size_t next_break = 0;
  std::size_t begin = 0;
  double passed_as = 0.0;
  int direction = 0;
  const auto finish = [&](std::size_t last) {
    if (direction != 0 && last > begin)
      deed(Stretch{counter_as[last] - counter_as[begin], passed_as});
  };
  for (std::size_t k = 0; k < seen.time_s.size(); ++k) {
    const double current_a = seen.current_a[k];
    const int here = current_a > rest_a ? 1 : current_a < -rest_a ? -1 : 0;
    const bool is_break = next_break < seen.breaks.size() && seen.breaks[next_break] == k;
    if (is_break) ++next_break;
    if (k == 0 || is_break || here != direction) {
      if (k > 0) finish(k - 1);
      begin = k;
      passed_as = 0.0;
      direction = here;
      continue;
    }
    passed_as += 0.5 * (current_a + seen.current_a[k - 1]) * (seen.time_s[k] - seen.time_s[k - 1]);
  }
  if (!seen.time_s.empty()) finish(seen.time_s.size() - 1);
}

}  // namespace

Counting counting_of(std::span<const double> counter_as, const CurrentOverTime& seen) {
  double charging_as = 0.0;     // counted while the file's current was positive
  double discharging_as = 0.0;  // counted while it was negative
  each_stretch(counter_as, seen, [&](const Stretch& stretch) {
    const double ratio = std::abs(stretch.counted_as) / std::max(std::abs(stretch.passed_as), 1e-9);
    if (ratio < least_ratio || ratio > most_ratio) return;
    (stretch.passed_as > 0.0 ? charging_as : discharging_as) += stretch.counted_as;
  });
  // The lesser direction must be more than a stray sample.
  const double stray_as = 0.01 * std::max(std::abs(charging_as), std::abs(discharging_as));
  const int up = charging_as > stray_as ? 1 : charging_as < -stray_as ? -1 : 0;
  const int down = discharging_as > stray_as ? 1 : discharging_as < -stray_as ? -1 : 0;
  if (up == 0 && down == 0) return Counting::Unclear;
  if (up >= 0 && down <= 0) return Counting::WithCurrent;
  if (up <= 0 && down >= 0) return Counting::AgainstCurrent;
  return up > 0 ? Counting::Upward : Counting::Unclear;
}

double counter_scale(std::span<const double> counter_as, const CurrentOverTime& seen) {
  std::vector<double> ratios;
  each_stretch(counter_as, seen, [&](const Stretch& stretch) {
    if (stretch.counted_as != 0.0 && stretch.passed_as != 0.0 && ratios.size() < 10000)
      ratios.push_back(std::abs(stretch.counted_as / stretch.passed_as));
  });
  if (ratios.empty()) return 0.0;
  const auto middle = ratios.begin() + static_cast<std::ptrdiff_t>(ratios.size() / 2);
  std::nth_element(ratios.begin(), middle, ratios.end());
  return *middle;
}

int carry_on(std::vector<double>& counter_as) {
  int starts = 0;
  double offset_as = 0.0;
  double before_as = 0.0;
  const double slack_as = 1e-3 * largest_of(counter_as);
  for (std::size_t k = 0; k < counter_as.size(); ++k) {
    const double here_as = counter_as[k];
    if (k > 0 && here_as < before_as - slack_as) {
      ++starts;
      offset_as += here_as < 0.5 * before_as ? before_as : before_as - here_as;
    }
    before_as = here_as;
    counter_as[k] = here_as + offset_as;
  }
  return starts;
}

int carry_on_signed(std::vector<double>& counter_as, const CurrentOverTime& seen, int sign) {
  int starts = 0;
  double offset_as = 0.0;
  double before_as = 0.0;
  const double largest_as = largest_of(counter_as);
  const double pause_s = 5.0 * usual_interval_s(seen.time_s);
  std::size_t next_break = 0;
  for (std::size_t k = 0; k < counter_as.size(); ++k) {
    const double here_as = counter_as[k];
    const bool is_break = next_break < seen.breaks.size() && seen.breaks[next_break] == k;
    if (is_break) {
      ++next_break;
      offset_as = 0.0;
    } else if (k > 0) {
      const double dt_s = seen.time_s[k] - seen.time_s[k - 1];
      const double larger_a =
          std::max(std::abs(seen.current_a[k]), std::abs(seen.current_a[k - 1]));
      const double slack_as = 2.0 * larger_a * dt_s + 0.01 * largest_as;
      // Back at zero, further than the current could bring it, and no time lost.
      if (std::abs(here_as) <= slack_as && std::abs(before_as) > 2.0 * slack_as &&
          dt_s <= pause_s) {
        ++starts;
        offset_as +=
            before_as - here_as + sign * 0.5 * dt_s * (seen.current_a[k] + seen.current_a[k - 1]);
      }
    }
    before_as = here_as;
    counter_as[k] = here_as + offset_as;
  }
  return starts;
}

void give_direction(std::vector<double>& counter_as, std::span<const double> current_a) {
  double before_as = counter_as.empty() ? 0.0 : counter_as.front();
  double total_as = before_as;
  double direction = 1.0;
  for (std::size_t k = 0; k < counter_as.size(); ++k) {
    if (current_a[k] != 0.0) direction = current_a[k] > 0.0 ? 1.0 : -1.0;
    total_as += direction * (counter_as[k] - before_as);
    before_as = counter_as[k];
    counter_as[k] = total_as;
  }
}

Between between_by_counter(std::span<const double> counter_as, const CurrentOverTime& seen,
                           int sign) {
  // How far the counter is from either rule, summed where the rules differ.
  double straight_as = 0.0;
  const double step_a = step_of_current_a(seen.current_a);
  double before_as = 0.0;
  std::size_t next_break = 0;
  for (std::size_t k = 0; k < counter_as.size(); ++k) {
    const bool is_break = next_break < seen.breaks.size() && seen.breaks[next_break] == k;
    if (is_break) ++next_break;
    if (k == 0 || is_break) continue;
    const double a = seen.current_a[k - 1];
    const double b = seen.current_a[k];
    if (std::abs(b - a) <= step_a) continue;
    const double dt_s = seen.time_s[k] - seen.time_s[k - 1];
    const double counted_as = sign * (counter_as[k] - counter_as[k - 1]);
    const double farthest_as = 3.0 * std::max(std::abs(a), std::abs(b)) * dt_s;
    if (std::abs(counted_as) > farthest_as) continue;  // moved unseen
    straight_as += std::abs(counted_as - 0.5 * (a + b) * dt_s);
    before_as += std::abs(counted_as - b * dt_s);
  }
  return before_as < 0.9 * straight_as ? Between::Before : Between::Straight;
}

double step_of_current_a(std::span<const double> current_a) { return 0.05 * largest_of(current_a); }

double usual_interval_s(std::span<const double> time_s) {
  std::vector<double> intervals_s;
  if (time_s.size() < 2) return 0.0;
  const std::size_t stride = std::max<std::size_t>(1, time_s.size() / 20000);
  intervals_s.reserve(time_s.size() / stride + 1);
  for (std::size_t k = 1; k < time_s.size(); k += stride) {
    const double dt_s = time_s[k] - time_s[k - 1];
    if (dt_s > 0.0) intervals_s.push_back(dt_s);
  }
  if (intervals_s.empty()) return 0.0;
  const auto middle = intervals_s.begin() + static_cast<std::ptrdiff_t>(intervals_s.size() / 2);
  std::nth_element(intervals_s.begin(), middle, intervals_s.end());
  return *middle;
}

}  // namespace tideover::cell

#include "cell/log_sign.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/text.hpp"

namespace tideover::cell {
namespace {

// A change of current below this share of the largest is no step.
constexpr double step_share = 0.05;
// Correlation of voltage and current over the steps from which on they are believed.
constexpr double believed_correlation = 0.3;
// A drift of the voltage below this is noise or relaxation.
constexpr double least_trend_v = 0.010;

double largest_of(std::span<const double> values_si) {
  double largest_si = 0.0;
  for (const double value : values_si) largest_si = std::max(largest_si, std::abs(value));
  return largest_si;
}

/// 1 if "charges" is meant behind a plus, -1 if "delivers" or "discharges" is.
int direction_behind(std::string_view text) {
  const std::size_t out =
      std::min({text.find("deliver"), text.find("discharg"), text.find("out of")});
  std::size_t in = text.find("charg");
  while (in != std::string_view::npos && in >= 3 && text.substr(in - 3, 3) == "dis")
    in = text.find("charg", in + 1);
  if (out == in) return 0;
  return in < out ? 1 : -1;
}

}  // namespace

VoltageAnswer answer_of_voltage(std::span<const double> voltage_v, const CurrentOverTime& seen) {
  VoltageAnswer answer;
  const double largest_a = largest_of(seen.current_a);
  const double step_a = step_share * largest_a;
  double current_square = 0.0;
  double voltage_square = 0.0;
  double product = 0.0;
  std::size_t next_break = 0;
  for (std::size_t k = 1; k < seen.time_s.size(); ++k) {
    while (next_break < seen.breaks.size() && seen.breaks[next_break] < k) ++next_break;
    if (next_break < seen.breaks.size() && seen.breaks[next_break] == k) continue;
    const double before_a = seen.current_a[k - 1];
    const double here_a = seen.current_a[k];
    const double change_a = here_a - before_a;
    const double change_v = voltage_v[k] - voltage_v[k - 1];
    if (std::abs(change_a) > step_a) {
      current_square += change_a * change_a;
      voltage_square += change_v * change_v;
      product += change_a * change_v;
    } else if (std::abs(here_a) > step_a) {
      answer.trend_v += here_a > 0.0 ? change_v : -change_v;
    }
  }
  if (current_square > 0.0 && voltage_square > 0.0) {
    const double correlation = product / std::sqrt(current_square * voltage_square);
    if (std::abs(correlation) > believed_correlation) answer.by_steps = product > 0.0 ? 1 : -1;
    answer.step_ohm = std::abs(product) / current_square;
  }
  if (std::abs(answer.trend_v) > least_trend_v) answer.by_trend = answer.trend_v > 0.0 ? 1 : -1;
  answer.trend_v = std::abs(answer.trend_v);
  return answer;
}

int sign_of_comments(const std::vector<std::string>& comments) {
  for (const std::string& comment : comments) {
    const std::string text = base::lower_case(comment);
    if (text.find("current") == std::string::npos && text.find("sign") == std::string::npos)
      continue;
    std::size_t plus = text.find("positive");
    if (plus == std::string::npos) plus = text.find("+ ");
    if (plus == std::string::npos) plus = text.find('+');
    if (plus == std::string::npos) continue;
    const int sign = direction_behind(std::string_view(text).substr(plus));
    if (sign != 0) return sign;
  }
  return 0;
}

bool sign_by_stretches(std::vector<double>& current_a, std::span<const double> voltage_v,
                       const CurrentOverTime& seen) {
  const double rest_a = 0.002 * largest_of(current_a);
  struct Stretch {
    std::size_t first;
    std::size_t end;
    int sign;
  };
  std::vector<Stretch> stretches;
  std::size_t next_break = 0;
  for (std::size_t k = 0; k < current_a.size(); ++k) {
    while (next_break < seen.breaks.size() && seen.breaks[next_break] < k) ++next_break;
    const bool is_break = next_break < seen.breaks.size() && seen.breaks[next_break] == k;
    if (std::abs(current_a[k]) <= rest_a) continue;
    if (stretches.empty() || stretches.back().end != k || is_break) stretches.push_back({k, k, 0});
    stretches.back().end = k + 1;
  }
  bool up = false;
  bool down = false;
  for (Stretch& stretch : stretches) {
    // From rest before it, if any, to its end.
    const std::size_t begin = stretch.first > 0 ? stretch.first - 1 : 0;
    const double change_v = voltage_v[stretch.end - 1] - voltage_v[begin];
    if (std::abs(change_v) < least_trend_v) continue;
    stretch.sign = change_v > 0.0 ? 1 : -1;
    (stretch.sign > 0 ? up : down) = true;
  }
  if (!up || !down) return false;
  int last = 1;
  for (const Stretch& stretch : stretches) {
    if (stretch.sign != 0) last = stretch.sign;
    for (std::size_t k = stretch.first; k < stretch.end; ++k)
      current_a[k] = last * std::abs(current_a[k]) + 0.0;  // no minus zero
  }
  return true;
}

}  // namespace tideover::cell

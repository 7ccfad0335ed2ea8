#include "finding/lasting.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <utility>
#include <vector>

namespace tideover::finding {

using run::Record;

namespace {

bool is_sampled(const Record& record) {
  return !record.instants.empty() && record.samples_si.size() == record.channels.size();
}

}  // namespace

std::optional<run::Extreme> lasting(const Record& record, std::size_t channel, Limits worse,
                                    quantity::Second lasts) {
  if (!is_sampled(record)) return std::nullopt;
  const double sign = worse == Limits::Above ? 1.0 : -1.0;
  const std::vector<double>& y = record.samples_si[channel];
  std::vector<std::pair<double, double>> steps;  // the better end of a step, its length
  for (std::size_t k = 1; k < y.size(); ++k) {
    steps.emplace_back(std::min(sign * y[k - 1], sign * y[k]),
                       (record.instants[k] - record.instants[k - 1]).si());
  }
  std::ranges::sort(steps, std::ranges::greater{});
  double found = sign * y.front();
  double spent_s = 0.0;
  for (const auto& [value, length_s] : steps) {
    spent_s += length_s;
    found = value;
    if (spent_s >= lasts.si()) break;
  }
  const auto first = std::ranges::find_if(y, [&](double one) { return sign * one >= found; });
  return run::Extreme{sign * found, record.instants[static_cast<std::size_t>(first - y.begin())]};
}

double lasting_size_si(const Record& record, std::size_t channel) {
  constexpr double second_s = 1.0;
  constexpr std::size_t bins = 1000;
  if (!is_sampled(record)) return 0.0;
  const std::vector<double>& y = record.samples_si[channel];
  double low = 0.0;
  double high = 0.0;
  for (const double one : y) high = std::max(high, std::abs(one));
  if (high == 0.0) return 0.0;
  // Narrowed down twice: the filling of a capacitor may be a hundred times what lasts.
  double found = 0.0;
  for (int round = 0; round < 2; ++round) {
    const double width = (high - low) / bins;
    std::array<double, bins + 1> spent_s{};
    for (std::size_t k = 1; k < y.size(); ++k) {
      const double size = std::min(std::abs(y[k - 1]), std::abs(y[k]));
      const double at = std::clamp((size - low) / width, 0.0, static_cast<double>(bins));
      if (size < low) continue;
      spent_s[static_cast<std::size_t>(at)] += (record.instants[k] - record.instants[k - 1]).si();
    }
    double above_s = 0.0;
    std::size_t bin = bins + 1;
    while (bin > 0 && above_s < second_s) above_s += spent_s[--bin];
    if (above_s < second_s) return 0.0;
    found = low + width * static_cast<double>(bin);
    low = found;
    high = std::min(high, found + width);
    if (high <= low) break;
  }
  return found;
}

}  // namespace tideover::finding

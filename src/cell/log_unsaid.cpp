#include "cell/log_unsaid.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <string_view>

namespace tideover::cell {
namespace {

// No single cell and no pack below 60 V shows more.
constexpr double most_volts = 100.0;
// A current above this is milliamperes: testers of cells seldom reach 60 A.
constexpr double most_amperes = 60.0;
// A cell tester seldom counts above this many ampere-hours.
constexpr double most_ampere_hours = 50.0;

double largest_of(std::span<const double> values_si) {
  double largest_si = 0.0;
  for (const double value : values_si) largest_si = std::max(largest_si, std::abs(value));
  return largest_si;
}

struct Candidate {
  std::string_view unit;
  double factor;
};

constexpr std::array<Candidate, 3> counters{{{"Ah", 3600.0}, {"mAh", 3.6}, {"As", 1.0}}};
constexpr std::array<Candidate, 2> currents{{{"A", 1.0}, {"mA", 1e-3}}};
constexpr std::array<Candidate, 4> times{{{"s", 1.0}, {"min", 60.0}, {"h", 3600.0}, {"ms", 1e-3}}};

/// The candidate whose factor is nearest to `wanted` in ratio.
const Candidate& nearest(std::span<const Candidate> candidates, double wanted) {
  return *std::ranges::min_element(candidates, {}, [wanted](const Candidate& c) {
    return std::abs(std::log(c.factor / wanted));
  });
}

std::string taken(std::string_view what, std::string_view unit, std::string_view why) {
  return std::string(what) + " without a unit: taken for " + std::string(unit) + ", " +
         std::string(why);
}

}  // namespace

UnitScales scales_of(const Log& log, const CurrentOverTime& seen, const UnsaidUnits& unsaid) {
  UnitScales scales;
  if (unsaid.voltage) {
    const bool is_milli = largest_of(log.voltage_v) > most_volts;
    scales.voltage_factor = is_milli ? 1e-3 : 1.0;
    scales.remarks.push_back(taken("voltage", is_milli ? "mV" : "V", "by its size"));
  }
  const bool flows = largest_of(log.current_a) > 0.0;
  const double scale = log.counter_c.empty() ? 0.0 : counter_scale(log.counter_c, seen);
  const bool known_by_counter = scale > 0.0 && !unsaid.counter;
  if (unsaid.current && flows) {
    const bool by_counter = known_by_counter && !unsaid.time;
    const bool is_milli = largest_of(log.current_a) > most_amperes;
    const Candidate& unit = by_counter ? nearest(currents, scale) : currents[is_milli ? 1 : 0];
    scales.current_factor = unit.factor;
    scales.remarks.push_back(
        taken("current", unit.unit, by_counter ? "as the counter has it" : "by its size"));
  }
  if (unsaid.time) {
    const bool by_counter = known_by_counter && !unsaid.current;
    const Candidate& unit = by_counter ? nearest(times, scale) : times[0];
    scales.time_factor = unit.factor;
    scales.remarks.push_back(
        taken("time", unit.unit, by_counter ? "as the counter has it" : "as is usual"));
  }
  if (unsaid.counter && !log.counter_c.empty()) {
    const double passed = scales.current_factor * scales.time_factor;
    const bool is_milli = largest_of(log.counter_c) > most_ampere_hours;
    const Candidate& unit =
        scale > 0.0 ? nearest(counters, passed / scale) : counters[is_milli ? 1 : 0];
    scales.counter_factor = unit.factor;
    scales.remarks.push_back(
        taken("counter", unit.unit, scale > 0.0 ? "as the current has it" : "by its size"));
  }
  return scales;
}

}  // namespace tideover::cell

#include "cell/log_time.hpp"

#include <cmath>
#include <utility>

namespace tideover::cell {
namespace {

constexpr double day_s = 86400.0;
// A clock that steps back by a day but for this passed midnight; more is a new beginning.
constexpr double midnight_pause_s = 3600.0;
// The year 2000; no test lasts that long.
constexpr double earliest_epoch_s = 946684800.0;

int carry_over_midnight(std::vector<double>& time_s) {
  int midnights = 0;
  double before_s = 0.0;
  for (std::size_t k = 0; k < time_s.size(); ++k) {
    const double here_s = time_s[k];
    if (k > 0 && here_s < before_s && before_s < day_s &&
        here_s + day_s - before_s < midnight_pause_s)
      ++midnights;
    else if (k > 0 && here_s < before_s)
      midnights = 0;
    before_s = here_s;
    time_s[k] = here_s + midnights * day_s;
  }
  return midnights;
}

}  // namespace

LogTime take_time(RawLog& log, const RawRows& rows) {
  LogTime taken;
  std::vector<double>& time_s = taken.time_s;
  const bool has_date = log.has(Role::Date);
  time_s = std::move(log.of(log.has(Role::Time) ? Role::Time : Role::Date));
  if (rows.times_are_dated) taken.clock_of_zero_s = rows.clock_of_zero_s;
  if (has_date && rows.times_are_of_day && log.has(Role::Date)) {
    const std::vector<double>& date_s = log.of(Role::Date);
    for (std::size_t k = 0; k < time_s.size(); ++k) time_s[k] += date_s[k];
    return taken;
  }
  if (rows.times_are_of_day) {
    taken.midnights = carry_over_midnight(time_s);
    return taken;
  }
  if (!rows.times_are_clock && !time_s.empty() && time_s.front() > earliest_epoch_s) {
    const double zero_s = std::floor(time_s.front());
    if (zero_s < 1e11) taken.clock_of_zero_s = static_cast<std::int64_t>(zero_s);
    for (double& t_s : time_s) t_s -= zero_s;
  }
  return taken;
}

}  // namespace tideover::cell

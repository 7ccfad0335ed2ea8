#include "cell/log.hpp"

#include <cmath>

#include "base/contract.hpp"

namespace tideover::cell {

double mean_current_a(const Log& log, std::size_t k) {
  const double before_a = log.current_a[k - 1];
  const double here_a = log.current_a[k];
  if (log.current_between == Between::Before && std::abs(here_a - before_a) > log.step_a)
    return here_a;
  return 0.5 * (before_a + here_a);
}

double charge_between_as(const Log& log, std::size_t first, std::size_t last) {
  TIDEOVER_EXPECT(first <= last && last < log.size(), "samples of the log");
  double charge_as = 0.0;
  for (std::size_t k = first + 1; k <= last; ++k)
    charge_as += mean_current_a(log, k) * (log.time_s[k] - log.time_s[k - 1]);
  return charge_as;
}

}  // namespace tideover::cell

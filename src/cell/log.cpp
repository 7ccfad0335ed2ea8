#include "cell/log.hpp"

#include "base/contract.hpp"

namespace tideover::cell {

double charge_between_as(const Log& log, std::size_t first, std::size_t last) {
  TIDEOVER_EXPECT(first <= last && last < log.size(), "samples of the log");
  double charge_as = 0.0;
  for (std::size_t k = first + 1; k <= last; ++k) {
    const double dt_s = log.time_s[k] - log.time_s[k - 1];
    const double current_a = log.current_between == Between::Before
                                 ? log.current_a[k]
                                 : 0.5 * (log.current_a[k] + log.current_a[k - 1]);
    charge_as += current_a * dt_s;
  }
  return charge_as;
}

}  // namespace tideover::cell

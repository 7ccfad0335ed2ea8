#include "question/current_range.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"

namespace tideover::question {

using quantity::Ampere;

std::vector<Ampere> currents_between(Ampere from, Ampere to, int steps,
                                     const std::vector<Ampere>& corners) {
  TIDEOVER_EXPECT(from > Ampere{} && from <= to && steps >= 1, "a range of currents rises");
  std::vector<Ampere> all{from, to};
  const double ratio = (to / from).si();
  for (int k = 1; k < steps; ++k)
    all.push_back(std::pow(ratio, k / static_cast<double>(steps)) * from);
  constexpr double next = 1.0 + 1e-9;
  for (const Ampere corner : corners) {
    for (const Ampere current : {corner, next * corner}) {
      if (current > from && current < to) all.push_back(current);
    }
  }
  std::ranges::sort(all);
  return all;
}

}  // namespace tideover::question

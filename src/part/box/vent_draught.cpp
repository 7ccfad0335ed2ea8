#include "part/box/vent_draught.hpp"

#include <cmath>

#include "base/contract.hpp"

namespace tideover::part {

using quantity::SquareMetre;

SquareMetre openings_in_series(SquareMetre low, SquareMetre high) {
  TIDEOVER_EXPECT(low.si() > 0.0 && high.si() > 0.0, "both openings are open");
  return SquareMetre::of_si(low.si() * high.si() / std::hypot(low.si(), high.si()));
}

}  // namespace tideover::part

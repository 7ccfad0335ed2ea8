#include "cell/rest_charge.hpp"

#include <cmath>

#include "part/pack/cell_curves.hpp"

namespace tideover::cell {

using namespace quantity;

Ratio charge_at_rest(const part::Cell& kind, Volt voltage) {
  const part::CellCurves curves = part::curves_of(kind);
  double low_share = 0.0;
  double high_share = 1.0;
  if (voltage.si() <= curves.rest_v(low_share)) return Ratio::of_si(0.0);
  if (voltage.si() >= curves.rest_v(high_share)) return Ratio::of_si(1.0);
  // The curve rises: halving to the last bit that matters.
  constexpr int halvings = 50;
  for (int k = 0; k < halvings; ++k) {
    const double share = 0.5 * (low_share + high_share);
    (curves.rest_v(share) < voltage.si() ? low_share : high_share) = share;
  }
  return Ratio::of_si(0.5 * (low_share + high_share));
}

Volt rest_voltage_at(const part::Cell& kind, Ratio charge) {
  return Volt::of_si(part::curves_of(kind).rest_v(charge.si()));
}

Ratio charge_error(const part::Cell& kind, Volt voltage, Volt within) {
  const Ratio width =
      charge_at_rest(kind, voltage + within) - charge_at_rest(kind, voltage - within);
  return Ratio::of_si(0.5 * width.si() / std::sqrt(3.0));
}

}  // namespace tideover::cell

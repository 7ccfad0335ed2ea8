/// The two curves of a cell as its law reads them.
#pragma once

#include "numeric/table.hpp"
#include "part/pack/cell.hpp"

namespace tideover::part {

struct CellCurves {
  /// Rest voltage [V] against share of charge. It goes on steeply beyond both ends: to 0 V at
  /// -6 % and, above full, to the voltages at which a cell of its chemistry is being abused
  /// (assumed shapes, from memory).
  numeric::Table rest_v;
  /// Series resistance over that at half charge, against share of charge; constant beyond the ends.
  numeric::Table resistance_ratio;
  double half_charge_ohm = 0.0;  ///< series resistance at half charge and 25 degC
};

/// Needs a cell without contradictions.
[[nodiscard]] CellCurves curves_of(const Cell& cell);

}  // namespace tideover::part

/// From logs of one cell to its model, by weighted least squares over all samples at once.
///
/// Fitted together: rest voltage and series resistance against charge, two RC pairs, their warming
/// by Arrhenius' law, the gap between the branches, the capacity; for every test its start and how
/// far its capacity is from the cell's; for a slow test both ways the offset of the tester's
/// current (discharge and charge would otherwise not close). Weights: a sample counts for the time
/// since the one before, a test for a thousand readings of 10 mV; outliers are held back.
/// What the logs do not tell comes from the class's row and keeps that row's origin.
#pragma once

#include <string>
#include <vector>

#include "base/progress.hpp"
#include "base/result.hpp"
#include "cell/fitted_cell.hpp"
#include "cell/log.hpp"

namespace tideover::cell {

/// A row of the shelf.
struct CellClass {
  std::string name;
  part::Cell cell;
};

/// The class whose chemistry the logs' highest and lowest voltages fit, nearest in capacity; of
/// `classes`, none of which is empty. Null if no voltage fits any (a pack, a meter in millivolts).
[[nodiscard]] const CellClass* nearest_class(const std::vector<Log>& logs,
                                             const std::vector<CellClass>& classes);

/// Fits the cell called `name`. A Problem where there is nothing to fit (no current flows, no
/// voltage is near the class's) or where the result cannot be a cell: a rest voltage that falls
/// with charge, a resistance that is none.
[[nodiscard]] base::Result<FittedCell> fit_cell(const std::string& name,
                                                const std::vector<Log>& logs,
                                                const CellClass& cell_class,
                                                base::Progress& progress);

}  // namespace tideover::cell

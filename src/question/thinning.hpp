/// Which samples of a run are worth a row in a table.
#pragma once

#include <cstddef>
#include <vector>

#include "run/record.hpp"

namespace tideover::question {

/// Rows that a spreadsheet shows without complaint.
inline constexpr std::size_t most_rows = 4000;

/// Indices into `record.instants`, rising, at most `most` (>= 4) of them: the first and the last,
/// those from 50 ms before to half a second after an event as far as half of `most` goes, and one
/// in each of equal parts of the run. A run with no more samples than that is kept whole.
[[nodiscard]] std::vector<std::size_t> kept_instants(const run::Record& record,
                                                     std::size_t most = most_rows);

/// Leaves only those samples in the record; extremes, events and books stay as they are.
void thin(run::Record& record, std::size_t most = most_rows);

}  // namespace tideover::question

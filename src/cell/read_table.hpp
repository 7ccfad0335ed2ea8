/// A small table typed by hand: `cell, capacity, resistance, rest voltage, date`.
///
/// Units stand in the headings or in the fields (`2810 mAh`, `38 mOhm`, `2.81 Ah +/- 1 %`). A cell
/// that stands in several rows, or voltages in several columns with a date each, give its voltages
/// at rest over time.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cell/read_log.hpp"
#include "cell/tested_cell.hpp"

namespace tideover::cell {

struct TableReading {
  std::vector<TestedCell> cells;  ///< in order of their first rows
  std::vector<Remark> remarks;
  base::Problems problems;  ///< a field that cannot be read is left out, the rest of its row stays
};

/// Whether the file's headings make such a table and not a log.
[[nodiscard]] bool is_table(std::string_view text);

[[nodiscard]] TableReading read_table(std::string_view text, const std::string& file);

}  // namespace tideover::cell

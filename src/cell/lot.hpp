/// A lot: cells that are meant to become one pack, as their tests left them.
#pragma once

#include <string>
#include <vector>

#include "cell/tested_cell.hpp"
#include "part/pack/cell.hpp"

namespace tideover::cell {

struct Lot {
  part::Cell kind;        ///< the class on the shelf they are held against, without contradictions
  std::string kind_name;  ///< its row: "nmc-18650-2800"
  std::vector<TestedCell> cells;  ///< in the order in which they were tested; names are unique
};

/// What stands beside every word on the cells of a lot.
[[nodiscard]] std::string lot_caution(part::Chemistry chemistry);

}  // namespace tideover::cell

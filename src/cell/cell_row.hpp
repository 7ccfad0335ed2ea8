/// A fitted cell as a row of the shelf, and a cell out of such a row.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "cell/fit.hpp"
#include "cell/fitted_cell.hpp"

namespace tideover::cell {

/// The file `cells/fitted.toml` of one cell: a comment, then its row. `files` are the logs it was
/// fitted to.
[[nodiscard]] std::string row_text(const FittedCell& fitted, const std::vector<std::string>& files);

/// The first row of such a text. Problems with their place; `file` is what messages call it.
[[nodiscard]] base::Result<CellClass> read_row_text(std::string_view text, const std::string& file);

/// The cells of the program's own shelf.
[[nodiscard]] std::vector<CellClass> shelf_classes();

}  // namespace tideover::cell

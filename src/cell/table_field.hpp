/// One field of a table typed by hand: a number with its unit there or in the heading.
#pragma once

#include <string>
#include <string_view>

#include "base/result.hpp"
#include "cell/log_headings.hpp"
#include "quantity/value.hpp"

namespace tideover::cell {

/// What the column measures, and what may be written there.
struct TableColumn {
  Measured measured = Measured::Nothing;
  Unit unit;           ///< of the heading; measures nothing if it tells none
  char decimal = '.';  ///< mark of decimals
};

/// The amount in SI units (A s, ohm, V), of origin measured. `unit_guessed` is set when neither
/// field nor heading tells the unit and it was told from the number's size.
[[nodiscard]] base::Result<quantity::Amount> read_table_field(std::string_view field,
                                                              const TableColumn& column,
                                                              std::string& unit_guessed);

}  // namespace tideover::cell

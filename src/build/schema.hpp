/// The JSON Schema of a build sheet, for editors: made from the descriptions that the reader reads
/// by, so both accept and refuse the same as far as a schema can tell.
#pragma once

#include <string>

#include "part/read_fields.hpp"

namespace tideover::build {

/// JSON Schema draft-07, indented, with a line end. The rows of `shelf` are offered by name.
///
/// What it cannot tell and the reader does: sizes, names that must exist, wiring, values that
/// contradict each other, ranges that run downwards, and rows that lack what a part needs.
[[nodiscard]] std::string sheet_schema(const part::Stock& shelf);

}  // namespace tideover::build

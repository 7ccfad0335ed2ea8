/// Round values around one that stands in a sheet, as texts in its own unit: what a slider offers.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/measure.hpp"

namespace tideover::quantity {

/// Rising; `texts[at]` is the text they were made from, as it was.
struct Choices {
  std::vector<std::string> texts;
  std::size_t at = 0;
};

/// About forty values from half to twice that of `text`, in steps of 1, 2 or 5 units of some
/// decade; 20 K to either side of a temperature; gauges by number. A tolerance written behind the
/// value stays behind each. All lie within the physical range, tolerance included. Nothing around a
/// range, around zero or around a text that cannot be read.
[[nodiscard]] Choices choices_around(std::string_view text, const Measure& measure,
                                     double lowest_si, double highest_si);

/// The same out of a list of values that are made, such as nominal sizes; those from a fifth to
/// five times the value.
[[nodiscard]] Choices choices_among(std::string_view text, const std::vector<std::string>& made,
                                    const Measure& measure);

/// The unit of a value's text as written, "" for a time of several units; and its tolerance,
/// "+/- 1.5 %".
[[nodiscard]] std::string unit_in(std::string_view text, const Measure& measure);
[[nodiscard]] std::string tolerance_in(std::string_view text);

}  // namespace tideover::quantity

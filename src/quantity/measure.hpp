/// What kind of quantity a text is expected to hold, and its name in words.
#pragma once

#include <string>
#include <string_view>

#include "quantity/dimension.hpp"
#include "quantity/units.hpp"

namespace tideover::quantity {

/// A dimension; temperatures as points on the Celsius scale are kept apart from differences.
struct Measure {
  Dimension dimension;
  bool is_point = false;

  friend constexpr bool operator==(const Measure&, const Measure&) = default;
};

/// The measure of a Quantity or of Temperature.
template <class Type>
[[nodiscard]] constexpr Measure measure_of() {
  return {Type::dimension, false};
}
template <>
[[nodiscard]] constexpr Measure measure_of<Temperature>() {
  return {Temperature::dimension, true};
}

/// "a voltage", "an energy"; "a quantity" for a dimension that has no name here.
[[nodiscard]] std::string_view in_words(const Measure& measure);

/// A value as one would write it: "12 V". Empty for a dimension that has no name here.
[[nodiscard]] std::string_view example_of(const Measure& measure);

/// A range as one would write it: "20 V to 28 V".
[[nodiscard]] std::string_view range_example_of(const Measure& measure);

}  // namespace tideover::quantity

/// What kind of quantity a text is expected to hold, and its name in words.
#pragma once

#include <string>
#include <string_view>

#include "quantity/dimension.hpp"
#include "quantity/units.hpp"

namespace tideover::quantity {

/// A dimension; temperatures as points on the Celsius scale are kept apart from differences. A
/// factor is a ratio that may exceed one, such as an exponent; it needs no unit.
struct Measure {
  Dimension dimension;
  bool is_point = false;
  bool is_factor = false;

  /// Equal measures share their units: a factor is a ratio.
  friend constexpr bool operator==(const Measure& a, const Measure& b) {
    return a.dimension == b.dimension && a.is_point == b.is_point;
  }
};

/// The measure of a Quantity or of Temperature.
template <class Type>
[[nodiscard]] constexpr Measure measure_of() {
  return {Type::dimension, false, false};
}
template <>
[[nodiscard]] constexpr Measure measure_of<Temperature>() {
  return {Temperature::dimension, true, false};
}

/// "a voltage", "an energy"; "a quantity" for a dimension that has no name here.
[[nodiscard]] std::string_view in_words(const Measure& measure);

/// A value as one would write it: "12 V". Empty for a dimension that has no name here.
[[nodiscard]] std::string_view example_of(const Measure& measure);

/// A range as one would write it: "20 V to 28 V".
[[nodiscard]] std::string_view range_example_of(const Measure& measure);

}  // namespace tideover::quantity

/// Quantities as text for people, and exactly for writing back into a sheet.
#pragma once

#include <string>

#include "quantity/measure.hpp"
#include "quantity/value.hpp"

namespace tideover::quantity {

/// Engineering text in the unit that fits the size: "24.1 V", "650 mA", "4 h 12 min", "38 degC".
/// `digits` are significant ones (1 to 17); trailing zeros after the point are dropped. A
/// temperature is shown to the whole degree for up to 3 digits, finer beyond. A time from one
/// minute on is shown in its two largest units. What is not finite is shown as "not a number",
/// "infinite" or "minus infinite".
[[nodiscard]] std::string show_si(double si, const Measure& measure, int digits = 3);

template <Dimension D>
[[nodiscard]] std::string show(Quantity<D> quantity, int digits = 3) {
  return show_si(quantity.si(), Measure{D, false, false}, digits);
}
[[nodiscard]] inline std::string show(Temperature temperature, int digits = 3) {
  return show_si(temperature.si(), measure_of<Temperature>(), digits);
}
/// With its tolerance, if any: "24.1 V +/- 1 %" or, unevenly, "20 V to 28 V".
[[nodiscard]] std::string show_amount(const Amount& amount, const Measure& measure, int digits = 3);
template <class Type>
[[nodiscard]] std::string show(const Value<Type>& value, int digits = 3) {
  return show_amount(value, measure_of<Type>(), digits);
}
/// "20 V to 28 V".
[[nodiscard]] std::string show_range(double low_si, double high_si, const Measure& measure,
                                     int digits = 3);
template <class Type>
[[nodiscard]] std::string show(const Span<Type>& span, int digits = 3) {
  return show_range(span.low_si, span.high_si, measure_of<Type>(), digits);
}

/// Text from which the same double is read again, in the unit that makes it shortest. Of a ratio
/// or a temperature it may be the neighbouring double: not every one is a hundredth of another.
[[nodiscard]] std::string exact_text(double si, const Measure& measure);

/// The same for an amount: the nominal exactly, the ends to the last digit or the one before it.
[[nodiscard]] std::string exact_text(const Amount& amount, const Measure& measure);

}  // namespace tideover::quantity

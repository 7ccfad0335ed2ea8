/// Quantities as text: `24.1 V +/- 1 %`, `20 V to 28 V`, `1 h 30 min`, `2 degC`. How they are
/// written is in quantity/show.hpp.
///
///   value      = quantity [ tolerance | " to " quantity ]
///   quantity   = number unit, or for a time several from large to small: 1 h 30 min
///   tolerance  = ("+/-" | "±") amount, or both sides: +5 % -10 %, -20 %/+20 %
///   amount     = number unit, or number %
///
/// A tolerance in % is that share of the value; of a ratio (80 % +/- 5 %) it is percentage points,
/// unless the ratio is a factor; of a temperature there is none. A range given for a value has its
/// nominal in the middle.
#pragma once

#include <string>
#include <string_view>

#include "base/result.hpp"
#include "quantity/measure.hpp"
#include "quantity/show.hpp"
#include "quantity/value.hpp"

namespace tideover::quantity {

enum class Form {
  Value,  ///< tolerance or range allowed
  Range,  ///< the same texts, but both ends are meant; one value is a range of equal ends
  Exact,  ///< neither allowed
};

/// Reads `text`; the amount is `given`, its origin and source are left to the caller. Ends are
/// finite and in order; what is physically possible is not looked at here. Of a failure the place
/// is line 1 of no file: column and length are code points inside `text`.
[[nodiscard]] base::Result<Amount> read_amount(std::string_view text, const Measure& expected,
                                               Form form);

template <class Type>
[[nodiscard]] base::Result<Value<Type>> read_value(std::string_view text) {
  const auto amount = read_amount(text, measure_of<Type>(), Form::Value);
  if (!amount) return amount.problems();
  Value<Type> value;
  static_cast<Amount&>(value) = amount.value();
  return value;
}

template <class Type>
[[nodiscard]] base::Result<Span<Type>> read_span(std::string_view text) {
  const auto amount = read_amount(text, measure_of<Type>(), Form::Range);
  if (!amount) return amount.problems();
  Span<Type> span;
  static_cast<Amount&>(span) = amount.value();
  return span;
}

/// A quantity without tolerance, such as an argument of a command.
template <class Type>
[[nodiscard]] base::Result<Type> read_exact(std::string_view text) {
  const auto amount = read_amount(text, measure_of<Type>(), Form::Exact);
  if (!amount) return amount.problems();
  return Type::of_si(amount.value().nominal_si);
}

/// A regular expression (ECMA 262) that fits the same texts, but for what a regular expression
/// cannot tell: ranges in order, falling units of a time, size of a number, gauge numbers.
[[nodiscard]] std::string text_pattern(const Measure& measure, Form form);

}  // namespace tideover::quantity

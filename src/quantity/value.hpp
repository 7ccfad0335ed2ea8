/// A value of a build: a number with its tolerance and with where it comes from.
#pragma once

#include <optional>
#include <string>

#include "quantity/units.hpp"

namespace tideover::quantity {

/// Where a value comes from, from best to least known.
enum class Origin { Measured, Datasheet, Typical, Assumed };

/// A value without its type: SI units, `low <= nominal <= high`. Equal ends mean no tolerance.
struct Amount {
  Amount() = default;
  Amount(double low, double nominal, double high)
      : nominal_si(nominal), low_si(low), high_si(high) {}

  double nominal_si = 0.0;
  double low_si = 0.0;
  double high_si = 0.0;
  Origin origin = Origin::Assumed;
  bool given = false;  ///< stated by a sheet or a shelf row, not a kind's default
  std::string source;  ///< citation or reason; for defaults the kind's own
  std::string meter;   ///< what it was read with: its error is that of all it reads; or empty
};

/// An amount whose type is known. `Type` is a Quantity or Temperature.
template <class Type>
struct Value : Amount {
  Value() = default;
  explicit Value(Type exact) : Amount(exact.si(), exact.si(), exact.si()) {}
  Value(Type low, Type nominal, Type high) : Amount(low.si(), nominal.si(), high.si()) {}

  [[nodiscard]] Type nominal() const { return Type::of_si(nominal_si); }
  [[nodiscard]] Type low() const { return Type::of_si(low_si); }
  [[nodiscard]] Type high() const { return Type::of_si(high_si); }
  [[nodiscard]] double si() const { return nominal_si; }
};

/// A stated range such as `20 V to 28 V`: both ends mean something, the middle nothing.
template <class Type>
struct Span : Amount {
  Span() = default;
  Span(Type low, Type high) : Amount(low.si(), 0.5 * (low.si() + high.si()), high.si()) {}
  [[nodiscard]] Type low() const { return Type::of_si(low_si); }
  [[nodiscard]] Type high() const { return Type::of_si(high_si); }
};

}  // namespace tideover::quantity

/// Strong types for physical quantities: one double in coherent SI units, no scale in the type.
/// Adding volts to amperes does not compile; multiplying them gives watts.
#pragma once

#include <cmath>
#include <compare>

#include "quantity/dimension.hpp"

namespace tideover::quantity {

template <Dimension D>
class Quantity {
 public:
  static constexpr Dimension dimension = D;

  constexpr Quantity() = default;
  /// The only ways in and out as a bare number: coherent SI units.
  [[nodiscard]] static constexpr Quantity of_si(double si) { return Quantity(si); }
  [[nodiscard]] constexpr double si() const { return si_; }

  friend constexpr auto operator<=>(const Quantity&, const Quantity&) = default;

  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.si_ + b.si_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.si_ - b.si_); }
  friend constexpr Quantity operator-(Quantity a) { return Quantity(-a.si_); }
  friend constexpr Quantity operator*(Quantity a, double factor) {
    return Quantity(a.si_ * factor);
  }
  friend constexpr Quantity operator*(double factor, Quantity a) {
    return Quantity(factor * a.si_);
  }
  friend constexpr Quantity operator/(Quantity a, double divisor) {
    return Quantity(a.si_ / divisor);
  }
  constexpr Quantity& operator+=(Quantity other) {
    si_ += other.si_;
    return *this;
  }
  constexpr Quantity& operator-=(Quantity other) {
    si_ -= other.si_;
    return *this;
  }

 private:
  explicit constexpr Quantity(double si) : si_(si) {}
  double si_ = 0.0;
};

template <Dimension A, Dimension B>
[[nodiscard]] constexpr auto operator*(Quantity<A> a, Quantity<B> b) {
  return Quantity<A * B>::of_si(a.si() * b.si());
}
template <Dimension A, Dimension B>
[[nodiscard]] constexpr auto operator/(Quantity<A> a, Quantity<B> b) {
  return Quantity<A / B>::of_si(a.si() / b.si());
}
template <Dimension D>
[[nodiscard]] constexpr auto operator/(double number, Quantity<D> q) {
  return Quantity<Dimension{} / D>::of_si(number / q.si());
}
template <Dimension D>
[[nodiscard]] Quantity<D> abs(Quantity<D> q) {
  return Quantity<D>::of_si(std::abs(q.si()));
}

}  // namespace tideover::quantity

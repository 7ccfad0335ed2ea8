/// The quantities of the trade and their literals.
/// Temperature is a point on the Celsius scale and is kept apart from Kelvin differences.
#pragma once

#include "quantity/quantity.hpp"

namespace tideover::quantity {

using Ratio = Quantity<Dimension{}>;
using Metre = Quantity<Dimension{.metre = 1}>;
using SquareMetre = Quantity<Dimension{.metre = 2}>;
using CubicMetre = Quantity<Dimension{.metre = 3}>;
using Kilogram = Quantity<Dimension{.kilogram = 1}>;
using Second = Quantity<Dimension{.second = 1}>;
using Hertz = Quantity<Dimension{.second = -1}>;
using Ampere = Quantity<Dimension{.ampere = 1}>;
using Coulomb = Quantity<Dimension{.second = 1, .ampere = 1}>;
using Kelvin = Quantity<Dimension{.kelvin = 1}>;
using Joule = Quantity<Dimension{2, 1, -2, 0, 0}>;
using Watt = Quantity<Dimension{2, 1, -3, 0, 0}>;
using Volt = Quantity<Dimension{2, 1, -3, -1, 0}>;
using Ohm = Quantity<Dimension{2, 1, -3, -2, 0}>;
using Siemens = Quantity<Dimension{-2, -1, 3, 2, 0}>;
using Farad = Quantity<Dimension{-2, -1, 4, 2, 0}>;
using Henry = Quantity<Dimension{2, 1, -2, -2, 0}>;
using OhmMetre = Quantity<Dimension{3, 1, -3, -2, 0}>;
using PerKelvin = Quantity<Dimension{.kelvin = -1}>;
using VoltPerKelvin = Quantity<Dimension{2, 1, -3, -1, -1}>;
using KelvinPerWatt = Quantity<Dimension{-2, -1, 3, 0, 1}>;
using WattPerKelvin = Quantity<Dimension{2, 1, -3, 0, -1}>;
using JoulePerKelvin = Quantity<Dimension{2, 1, -2, 0, -1}>;
using AmpereSquaredSecond = Quantity<Dimension{.second = 1, .ampere = 2}>;
using CubicMetrePerSecond = Quantity<Dimension{.metre = 3, .second = -1}>;

/// A temperature as a point; `si()` is kelvin above absolute zero.
class Temperature {
 public:
  static constexpr Dimension dimension{.kelvin = 1};
  static constexpr double zero_celsius_k = 273.15;  // SI definition of the Celsius scale

  constexpr Temperature() = default;
  [[nodiscard]] static constexpr Temperature of_celsius(double celsius) {
    return Temperature(celsius + zero_celsius_k);
  }
  [[nodiscard]] static constexpr Temperature of_si(double kelvin) { return Temperature(kelvin); }
  [[nodiscard]] constexpr double celsius() const { return kelvin_ - zero_celsius_k; }
  [[nodiscard]] constexpr double si() const { return kelvin_; }

  friend constexpr auto operator<=>(const Temperature&, const Temperature&) = default;
  friend constexpr Kelvin operator-(Temperature a, Temperature b) {
    return Kelvin::of_si(a.kelvin_ - b.kelvin_);
  }
  friend constexpr Temperature operator+(Temperature a, Kelvin rise) {
    return Temperature(a.kelvin_ + rise.si());
  }

 private:
  explicit constexpr Temperature(double kelvin) : kelvin_(kelvin) {}
  double kelvin_ = zero_celsius_k;
};

inline namespace literals {
#define TIDEOVER_UNIT(suffix, Type, scale)                        \
  constexpr Type operator""_##suffix(long double number) {        \
    return Type::of_si(static_cast<double>(number) * (scale));    \
  }                                                               \
  constexpr Type operator""_##suffix(unsigned long long number) { \
    return Type::of_si(static_cast<double>(number) * (scale));    \
  }
TIDEOVER_UNIT(ratio, Ratio, 1.0)
TIDEOVER_UNIT(percent, Ratio, 1e-2)
TIDEOVER_UNIT(m, Metre, 1.0)
TIDEOVER_UNIT(mm, Metre, 1e-3)
TIDEOVER_UNIT(mm2, SquareMetre, 1e-6)
TIDEOVER_UNIT(cm2, SquareMetre, 1e-4)
TIDEOVER_UNIT(g, Kilogram, 1e-3)
TIDEOVER_UNIT(s, Second, 1.0)
TIDEOVER_UNIT(ms, Second, 1e-3)
TIDEOVER_UNIT(us, Second, 1e-6)
TIDEOVER_UNIT(min, Second, 60.0)
TIDEOVER_UNIT(h, Second, 3600.0)
TIDEOVER_UNIT(d, Second, 86400.0)
TIDEOVER_UNIT(A, Ampere, 1.0)
TIDEOVER_UNIT(mA, Ampere, 1e-3)
TIDEOVER_UNIT(uA, Ampere, 1e-6)
TIDEOVER_UNIT(Ah, Coulomb, 3600.0)
TIDEOVER_UNIT(K, Kelvin, 1.0)
TIDEOVER_UNIT(J, Joule, 1.0)
TIDEOVER_UNIT(Wh, Joule, 3600.0)
TIDEOVER_UNIT(W, Watt, 1.0)
TIDEOVER_UNIT(mW, Watt, 1e-3)
TIDEOVER_UNIT(V, Volt, 1.0)
TIDEOVER_UNIT(mV, Volt, 1e-3)
TIDEOVER_UNIT(Ohm, Ohm, 1.0)
TIDEOVER_UNIT(mOhm, Ohm, 1e-3)
TIDEOVER_UNIT(kOhm, Ohm, 1e3)
TIDEOVER_UNIT(MOhm, Ohm, 1e6)
TIDEOVER_UNIT(F, Farad, 1.0)
TIDEOVER_UNIT(mF, Farad, 1e-3)
TIDEOVER_UNIT(uF, Farad, 1e-6)
TIDEOVER_UNIT(H, Henry, 1.0)
TIDEOVER_UNIT(mH, Henry, 1e-3)
TIDEOVER_UNIT(K_per_W, KelvinPerWatt, 1.0)
TIDEOVER_UNIT(J_per_K, JoulePerKelvin, 1.0)
TIDEOVER_UNIT(A2s, AmpereSquaredSecond, 1.0)
#undef TIDEOVER_UNIT

constexpr Temperature operator""_degC(long double number) {
  return Temperature::of_celsius(static_cast<double>(number));
}
constexpr Temperature operator""_degC(unsigned long long number) {
  return Temperature::of_celsius(static_cast<double>(number));
}
}  // namespace literals

}  // namespace tideover::quantity

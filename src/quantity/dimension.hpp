/// The dimension of a physical quantity as exponents of SI base units.
#pragma once

namespace tideover::quantity {

/// Exponents of metre, kilogram, second, ampere, kelvin. Angles, ratios and counts are all zero.
struct Dimension {
  int metre = 0;
  int kilogram = 0;
  int second = 0;
  int ampere = 0;
  int kelvin = 0;

  friend constexpr bool operator==(const Dimension&, const Dimension&) = default;

  friend constexpr Dimension operator*(const Dimension& a, const Dimension& b) {
    return {a.metre + b.metre, a.kilogram + b.kilogram, a.second + b.second, a.ampere + b.ampere,
            a.kelvin + b.kelvin};
  }
  friend constexpr Dimension operator/(const Dimension& a, const Dimension& b) {
    return {a.metre - b.metre, a.kilogram - b.kilogram, a.second - b.second, a.ampere - b.ampere,
            a.kelvin - b.kelvin};
  }
};

}  // namespace tideover::quantity

/// How a tolerance becomes a distribution that draws are taken from.
///
/// A limit somebody states (`datasheet`, `typical`, `assumed`) says that nothing lies outside and
/// no more: rectangular between its ends, JCGM 100:2008 (GUM) 4.3.7. A `measured` value with its
/// tolerance is a normal distribution of which the tolerance is the expanded uncertainty with k =
/// 2, JCGM 100:2008 6.3.3; it is cut at three standard uncertainties and where physics ends (both
/// clauses from memory). Unequal tolerances: either side of the nominal value is as likely as the
/// other, so that the nominal value stays the median.
#pragma once

#include <limits>

#include "quantity/value.hpp"

namespace tideover::quantity {

class Spread {
 public:
  static constexpr double coverage_factor = 2.0;  ///< expanded over standard uncertainty
  static constexpr double deviations_kept = 3.0;  ///< of a normal distribution, on each side

  /// `least_si` and `most_si` enclose the nominal value: beyond them nothing can be.
  explicit Spread(const Amount& amount, double least_si = -std::numeric_limits<double>::infinity(),
                  double most_si = std::numeric_limits<double>::infinity());

  /// The value, in SI units, that a share `u` of all draws does not exceed; 0 <= u <= 1. Rises with
  /// u; the nominal value at one half.
  [[nodiscard]] double at(double u) const;

  /// No tolerance: every draw is the nominal value.
  [[nodiscard]] bool is_fixed() const { return below_.width_si + above_.width_si == 0.0; }

 private:
  /// One side of the nominal value.
  struct Side {
    double width_si = 0.0;  ///< rectangular: to its end; normal: one standard uncertainty
    double tail = 0.0;      ///< share of a whole normal distribution that is cut off
  };
  [[nodiscard]] Side side(double tolerance_si, double room_si) const;
  [[nodiscard]] double away_si(const Side& side, double share) const;

  bool is_normal_;
  double nominal_si_;
  Side below_;
  Side above_;
};

}  // namespace tideover::quantity

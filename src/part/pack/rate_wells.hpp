/// Peukert's law as two wells of charge.
///
/// A cell gives less at a high rate because the charge near the terminals runs out before the rest
/// has come after it. Two wells, of which only the first feeds the terminals and which level out at
/// rest, show that, give the charge back after a pause and keep the books of energy.
/// Source of the two wells: Manwell and McGowan, Solar Energy 50 (1993) 399 (from memory).
/// For a constant current that empties the first well in the time t, the charge delivered over that
/// of both wells is
///     share(t) = 1 / (1 + (1 - c)/c (1 - exp(-kappa t))/(kappa t)).
/// Source of the law it stands for: Peukert, t = H (C/(I H))^n for a capacity C rated over H.
#pragma once

#include <cmath>

namespace tideover::part {

struct RateWells {
  double near_share = 1.0;       ///< c: the first well's part of the charge of both
  double level_per_s = 0.0;      ///< kappa: how fast the two level out
  double both_over_rated = 1.0;  ///< charge of both wells over the rated capacity

  /// Charge that a constant current delivers until the first well is empty after `time_s`, over
  /// the charge of both wells.
  [[nodiscard]] double share(double time_s) const {
    const double x = level_per_s * time_s;
    if (x <= 0.0) return 1.0;
    return 1.0 / (1.0 + (1.0 - near_share) / near_share * (-std::expm1(-x)) / x);
  }
};

/// The wells that keep Peukert's law with exponent `n` (1 to 1.5) between the rated current and
/// five times that within 2 % for n <= 1.3. The two polynomials are our fit. Below the rated
/// current the wells are saner than the law: they never give more than they hold.
[[nodiscard]] inline RateWells wells_of(double n, double rated_s) {
  if (n <= 1.0) return {};
  const double m = n - 1.0;
  RateWells wells;
  wells.near_share = 1.0 / (1.0 + m * (3.6 + 3.7 * m));
  wells.level_per_s = (3.65 + 9.3 * m) / rated_s;
  wells.both_over_rated = 1.0 / wells.share(rated_s);
  return wells;
}

}  // namespace tideover::part

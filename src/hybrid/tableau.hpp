/// Coefficients of one-step methods.
#pragma once

#include <array>

namespace tideover::hybrid {

/// A stiffly accurate singly diagonal implicit Runge-Kutta method and an embedded method that
/// judges its error. Stage 0 is the value before the step, the last stage the value after. All are
/// L-stable. tests/convergence recomputes the orders from the numbers.
struct Tableau {
  static constexpr int most_stages = 6;
  using Row = std::array<double, most_stages>;

  const char* name = "";
  int stages = 0;
  bool uses_first_slope = true;  ///< ESDIRK: stage 0 counts; false: column 0 is zero
  int stage_order = 2;
  int order = 0;
  int embedded_order = 0;
  double gamma = 0.0;                ///< a[i][i] for i > 0
  std::array<Row, most_stages> a{};  ///< strictly lower part and diagonal; last row = weights
  Row embedded{};                    ///< weights of the embedded method
  Row c{};                           ///< instants of the stages, as shares of the step

  [[nodiscard]] const Row& weights() const { return a[static_cast<std::size_t>(stages - 1)]; }
};

/// TR-BDF2, order 2(3). Source: Hosea and Shampine, Appl. Numer. Math. 20 (1996) 21 (from memory).
[[nodiscard]] const Tableau& tr_bdf2();
/// ESDIRK3(2)4L[2]SA, order 3(2). Source: Kennedy and Carpenter, Appl. Numer. Math. 44 (2003) 139,
/// implicit part of ARK3(2)4L[2]SA (from memory).
[[nodiscard]] const Tableau& esdirk_32();
/// ESDIRK4(3)6L[2]SA, order 4(3). Source: as above, implicit part of ARK4(3)6L[2]SA (from memory).
[[nodiscard]] const Tableau& esdirk_43();
/// SDIRK4, order 4(3), without use of the slope at the beginning (stage order one): for the first
/// step after an event, when a rail capacitor's slope is steep and means nothing for the step. Its
/// gamma is that of esdirk_43, so both share their factors. Source: Hairer and Wanner, Solving
/// Ordinary Differential Equations II, table IV.6.5 (from memory).
[[nodiscard]] const Tableau& sdirk_43();

}  // namespace tideover::hybrid

/// Coefficients of one-step methods.
#pragma once

#include <array>

namespace tideover::hybrid {

/// A stiffly accurate singly diagonal implicit Runge-Kutta method with explicit first stage
/// (ESDIRK) and an embedded method that judges its error. All are L-stable with stage order two;
/// the last stage is the new value. tests/convergence recomputes the orders from the numbers.
struct Tableau {
  static constexpr int most_stages = 6;
  using Row = std::array<double, most_stages>;

  const char* name = "";
  int stages = 0;
  int order = 0;
  int embedded_order = 0;
  double gamma = 0.0;                      ///< a[i][i] for i > 0
  std::array<Row, most_stages> a{};        ///< strictly lower part and diagonal; last row = weights
  Row embedded{};                          ///< weights of the embedded method
  Row c{};                                 ///< instants of the stages, as shares of the step

  [[nodiscard]] const Row& weights() const { return a[static_cast<std::size_t>(stages - 1)]; }
};

/// TR-BDF2, order 2(3). Source: Hosea and Shampine, Appl. Numer. Math. 20 (1996) 21 (from memory).
[[nodiscard]] const Tableau& tr_bdf2();
/// ESDIRK3(2)4L[2]SA, order 3(2). Source: Kennedy and Carpenter, Appl. Numer. Math. 44 (2003) 139,
/// implicit part of ARK3(2)4L[2]SA (from memory).
[[nodiscard]] const Tableau& esdirk_32();
/// ESDIRK4(3)6L[2]SA, order 4(3). Source: as above, implicit part of ARK4(3)6L[2]SA (from memory).
[[nodiscard]] const Tableau& esdirk_43();

}  // namespace tideover::hybrid

// The order conditions recomputed from the coefficients.
// Source: Hairer, Norsett and Wanner, Solving Ordinary Differential Equations I, II.2, table 2.2
// (from memory).
#include "hybrid/tableau.hpp"

#include <cmath>
#include <string>
#include <vector>

#include <doctest/doctest.h>

namespace {

using tideover::hybrid::Tableau;

struct Conditions {
  const Tableau& t;
  const Tableau::Row& b;

  [[nodiscard]] std::size_t stages() const { return static_cast<std::size_t>(t.stages); }
  [[nodiscard]] double a(std::size_t i, std::size_t j) const { return t.a[i][j]; }

  /// Largest violation of the conditions of exactly this order.
  [[nodiscard]] double violation(int order) const {
    double c0 = 0, c1 = 0, c2 = 0, ac = 0, c3 = 0, cac = 0, ac2 = 0, aac = 0;
    for (std::size_t i = 0; i < stages(); ++i) {
      c0 += b[i];
      c1 += b[i] * t.c[i];
      c2 += b[i] * t.c[i] * t.c[i];
      c3 += b[i] * t.c[i] * t.c[i] * t.c[i];
      for (std::size_t j = 0; j < stages(); ++j) {
        ac += b[i] * a(i, j) * t.c[j];
        cac += b[i] * t.c[i] * a(i, j) * t.c[j];
        ac2 += b[i] * a(i, j) * t.c[j] * t.c[j];
        for (std::size_t k = 0; k < stages(); ++k) aac += b[i] * a(i, j) * a(j, k) * t.c[k];
      }
    }
    if (order == 1) return std::abs(c0 - 1.0);
    if (order == 2) return std::abs(c1 - 0.5);
    if (order == 3) return std::max(std::abs(c2 - 1.0 / 3.0), std::abs(ac - 1.0 / 6.0));
    return std::max(std::max(std::abs(c3 - 0.25), std::abs(cac - 0.125)),
                    std::max(std::abs(ac2 - 1.0 / 12.0), std::abs(aac - 1.0 / 24.0)));
  }
};

/// R(z) at z -> -infinity: 1 - b^T A^-1 1, here for stiffly accurate methods by marching stages.
double amplification(const Tableau& t, double z) {
  std::vector<double> stage(static_cast<std::size_t>(t.stages), 1.0);
  for (std::size_t i = 1; i < stage.size(); ++i) {
    double sum = 1.0;
    for (std::size_t j = 0; j < i; ++j) sum += z * t.a[i][j] * stage[j];
    stage[i] = sum / (1.0 - z * t.gamma);
  }
  return stage.back();
}

const std::vector<const Tableau*> tableaux = {
    &tideover::hybrid::tr_bdf2(), &tideover::hybrid::esdirk_32(), &tideover::hybrid::esdirk_43(),
    &tideover::hybrid::sdirk_43()};

}  // namespace

TEST_CASE("tableau: each method has the order it claims, its weights being its last stage") {
  for (const Tableau* t : tableaux) {
    CAPTURE(std::string(t->name));
    const Conditions conditions{*t, t->weights()};
    for (int order = 1; order <= t->order; ++order) CHECK(conditions.violation(order) < 1e-12);
    if (t->order < 4) CHECK(conditions.violation(t->order + 1) > 1e-3);
  }
}

TEST_CASE("tableau: each embedded method has the order it claims") {
  for (const Tableau* t : tableaux) {
    CAPTURE(std::string(t->name));
    const Conditions conditions{*t, t->embedded};
    for (int order = 1; order <= t->embedded_order; ++order) {
      CHECK(conditions.violation(order) < 1e-12);
    }
  }
}

TEST_CASE("tableau: stages stand where their rows say, with the stage order claimed") {
  for (const Tableau* t : tableaux) {
    CAPTURE(std::string(t->name));
    for (std::size_t i = 1; i < static_cast<std::size_t>(t->stages); ++i) {
      double sum = 0.0;
      double first = 0.0;
      for (std::size_t j = 0; j <= i; ++j) {
        sum += t->a[i][j];
        first += t->a[i][j] * t->c[j];
      }
      CHECK(sum == doctest::Approx(t->c[i]).epsilon(1e-12));
      if (t->stage_order > 1) {
        CHECK(first == doctest::Approx(0.5 * t->c[i] * t->c[i]).epsilon(1e-12));
      }
      if (!t->uses_first_slope) CHECK(t->a[i][0] == 0.0);
      CHECK(t->a[i][i] == t->gamma);
    }
  }
}

TEST_CASE("tableau: L-stable: a stiff transient is gone after one long step") {
  for (const Tableau* t : tableaux) {
    CAPTURE(std::string(t->name));
    CHECK(std::abs(amplification(*t, -1e9)) < 1e-6);
    for (double z = -1e-3; z > -1e6; z *= 1.7) CHECK(std::abs(amplification(*t, z)) <= 1.0);
  }
}

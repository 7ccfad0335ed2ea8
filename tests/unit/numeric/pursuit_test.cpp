#include "numeric/pursuit.hpp"

#include <cmath>
#include <random>
#include <vector>

#include <doctest/doctest.h>

#include "base/contract.hpp"
#include "numeric/sobol_points.hpp"

namespace {

using namespace tideover;
using numeric::pursue;
using numeric::Pursuit;

constexpr std::size_t inputs = 60;

/// Rectangular deviates of mean 0 and variance 1.
std::vector<std::vector<double>> draws_of(std::uint64_t count) {
  const numeric::SobolPoints points(static_cast<int>(inputs), 4);
  std::vector<std::vector<double>> draws(count, std::vector<double>(inputs));
  for (std::uint64_t k = 0; k < count; ++k) {
    points.point(k, draws[k]);
    for (double& value : draws[k]) value = (value - 0.5) * std::sqrt(12.0);
  }
  return draws;
}

}  // namespace

TEST_CASE("pursuit: of sixty inputs those that a result follows are found, and how much") {
  const auto draws = draws_of(128);
  std::vector<double> results;
  results.reserve(draws.size());
  for (const auto& row : draws)
    results.push_back(30.0 + 4.0 * row[3] - 2.0 * row[17] + 0.5 * row[41]);
  const Pursuit fit = pursue(draws, results);
  // Inputs of 128 draws are not quite at right angles: what is left over shrinks step by step.
  CHECK(fit.coefficients[3] == doctest::Approx(4.0).epsilon(0.02));
  CHECK(fit.coefficients[17] == doctest::Approx(-2.0).epsilon(0.04));
  CHECK(fit.coefficients[41] == doctest::Approx(0.5).epsilon(0.15));
  double others = 0.0;
  for (std::size_t k = 0; k < inputs; ++k) {
    if (k != 3 && k != 17 && k != 41) others += fit.coefficients[k] * fit.coefficients[k];
  }
  CHECK(others < 0.01);
  CHECK(fit.at(draws[5]) == doctest::Approx(results[5]).epsilon(0.02));
}

TEST_CASE("pursuit: what is chance alone is followed by next to nothing") {
  const auto draws = draws_of(128);
  std::mt19937_64 bits(3);
  int followed = 0;
  constexpr int tries = 20;
  for (int again = 0; again < tries; ++again) {
    std::vector<double> results;
    for (std::size_t k = 0; k < draws.size(); ++k) {
      results.push_back(static_cast<double>(bits() >> 11U) * 0x1p-53);
    }
    for (const double c : pursue(draws, results).coefficients) followed += c != 0.0 ? 1 : 0;
  }
  // One in two thousand of 1200 inputs, and what is looked at again once one was taken.
  CHECK(followed <= 6);
}

TEST_CASE("pursuit: what stays the same follows nothing") {
  const Pursuit flat = pursue(draws_of(16), std::vector<double>(16, 24.0));
  CHECK(flat.mean == 24.0);
  for (const double c : flat.coefficients) CHECK(c == 0.0);
  CHECK(pursue({}, {}).coefficients.empty());
  CHECK_THROWS_AS(static_cast<void>(pursue({}, std::vector{1.0})), base::ContractFault);
}

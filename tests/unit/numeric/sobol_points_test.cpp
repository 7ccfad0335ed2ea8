#include "numeric/sobol_points.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <vector>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "base/contract.hpp"

namespace {

using tideover::numeric::SobolPoints;

std::vector<double> point_of(const SobolPoints& points, std::uint64_t index) {
  std::vector<double> u(static_cast<std::size_t>(points.dimensions()));
  points.point(index, u);
  return u;
}

}  // namespace

TEST_CASE("sobol points: the plain sequence is the published one") {
  // First ten points in three dimensions of Joe and Kuo's notes on generating Sobol sequences,
  // 2008 (from memory). A coordinate here is the middle of a cell, 2^-53 above theirs.
  const std::array<std::array<double, 3>, 10> published{{{0, 0, 0},
                                                         {0.5, 0.5, 0.5},
                                                         {0.75, 0.25, 0.25},
                                                         {0.25, 0.75, 0.75},
                                                         {0.375, 0.375, 0.625},
                                                         {0.875, 0.875, 0.125},
                                                         {0.625, 0.125, 0.875},
                                                         {0.125, 0.625, 0.375},
                                                         {0.1875, 0.3125, 0.9375},
                                                         {0.6875, 0.8125, 0.4375}}};
  const SobolPoints points(3);
  for (std::size_t k = 0; k < published.size(); ++k) {
    const std::vector<double> u = point_of(points, k);
    for (std::size_t d = 0; d < 3; ++d) CHECK(std::abs(u[d] - published[k][d]) <= 0x1p-53);
  }
}

TEST_CASE("sobol points: in every dimension each of 256 equal parts gets one of 256 points") {
  for (const std::uint64_t block : {0U, 1U, 7U}) {
    const SobolPoints points(300, 5);
    std::vector<std::set<int>> parts(300);
    for (std::uint64_t k = 0; k < 256; ++k) {
      const std::vector<double> u = point_of(points, 256 * block + k);
      for (std::size_t d = 0; d < 300; ++d) parts[d].insert(static_cast<int>(u[d] * 256.0));
    }
    CHECK(std::ranges::all_of(parts, [](const auto& seen) { return seen.size() == 256; }));
  }
}

TEST_CASE("sobol points: two dimensions are filled as evenly as they can be, scrambled or not") {
  // The first two dimensions are a (0, m, 2) net: each box of 2^-a by 2^-b, a + b = m, holds one.
  for (const SobolPoints& points : {SobolPoints(2), SobolPoints(2, 1), SobolPoints(2, 99)}) {
    for (int a = 0; a <= 8; ++a) {
      std::set<std::pair<int, int>> boxes;
      for (std::uint64_t k = 0; k < 256; ++k) {
        const std::vector<double> u = point_of(points, k);
        boxes.insert(
            {static_cast<int>(std::ldexp(u[0], a)), static_cast<int>(std::ldexp(u[1], 8 - a))});
      }
      CHECK(boxes.size() == 256);
    }
  }
}

TEST_CASE("sobol points: a point depends on its number and seed, and on nothing asked before") {
  CHECK(rc::check([] {
    const auto seed = *rc::gen::arbitrary<std::uint64_t>();
    const auto index = *rc::gen::inRange<std::uint64_t>(0, std::uint64_t{1} << 32U);
    const SobolPoints fresh(20, seed);
    const SobolPoints used(20, seed);
    static_cast<void>(point_of(used, index / 3));
    RC_ASSERT(point_of(fresh, index) == point_of(used, index));
    for (const double u : point_of(fresh, index)) RC_ASSERT((u > 0.0 && u < 1.0));

    // A wider point begins as a narrower one: a value more leaves the others' draws alone.
    std::vector<double> wide = point_of(SobolPoints(33, seed), index);
    wide.resize(20);
    RC_ASSERT(wide == point_of(fresh, index));
  }));
}

TEST_CASE("sobol points: seeds give points of their own, each uniform over the seeds") {
  constexpr int seeds = 4000;
  double sum = 0.0;
  double squares = 0.0;
  double products = 0.0;
  for (int seed = 0; seed < seeds; ++seed) {
    const std::vector<double> u = point_of(SobolPoints(6, static_cast<std::uint64_t>(seed)), 3);
    sum += u[4];
    squares += u[4] * u[4];
    products += (u[4] - 0.5) * (u[5] - 0.5);
  }
  // Five standard errors of a mean of 4000: of u 0.289, of u squared 0.298, of the product 1/12.
  CHECK(std::abs(sum / seeds - 0.5) < 5.0 * 0.289 / std::sqrt(seeds));
  CHECK(std::abs(squares / seeds - 1.0 / 3.0) < 5.0 * 0.298 / std::sqrt(seeds));
  CHECK(std::abs(products / seeds) < 5.0 / 12.0 / std::sqrt(seeds));
}

TEST_CASE("sobol points: what cannot be asked breaks the contract") {
  using tideover::base::ContractFault;
  CHECK_THROWS_AS(SobolPoints(0), ContractFault);
  CHECK_THROWS_AS(SobolPoints(SobolPoints::most_dimensions + 1), ContractFault);
  const SobolPoints points(2);
  std::vector<double> u(2);
  CHECK_THROWS_AS(points.point(std::uint64_t{1} << 32U, u), ContractFault);
  CHECK_THROWS_AS(points.point(0, std::span(u).first(1)), ContractFault);
}

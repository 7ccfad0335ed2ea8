#include "numeric/table.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "base/contract.hpp"

namespace {

using tideover::numeric::Dual;
using tideover::numeric::Table;

struct Points {
  std::vector<double> x;
  std::vector<double> y;
};

/// Two to ten points, widths from 0.01 to 10, heights of either sign or of one.
Points any_points(bool rising) {
  const int count = *rc::gen::inRange(2, 11);
  Points points;
  double x = *rc::gen::inRange(-1000, 1000) * 0.01;
  double y = *rc::gen::inRange(-1000, 1000) * 0.01;
  for (int k = 0; k < count; ++k) {
    points.x.push_back(x);
    points.y.push_back(y);
    x += *rc::gen::inRange(1, 1000) * 0.01;
    y += *rc::gen::inRange(rising ? 0 : -1000, 1000) * 0.01;
  }
  return points;
}

std::vector<double> fine_grid(const Points& points, int per_piece) {
  std::vector<double> grid;
  for (std::size_t k = 0; k + 1 < points.x.size(); ++k) {
    for (int i = 0; i < per_piece; ++i) {
      grid.push_back(points.x[k] + (points.x[k + 1] - points.x[k]) * i / per_piece);
    }
  }
  grid.push_back(points.x.back());
  return grid;
}

}  // namespace

TEST_CASE("table: goes through its points") {
  CHECK(rc::check([] {
    const Points points = any_points(false);
    const Table table(points.x, points.y);
    for (std::size_t k = 0; k < points.x.size(); ++k) {
      RC_ASSERT(std::abs(table(points.x[k]) - points.y[k]) < 1e-10);
    }
  }));
}

TEST_CASE("table: never leaves the range between two neighbouring points") {
  CHECK(rc::check([] {
    const Points points = any_points(false);
    const Table table(points.x, points.y);
    for (std::size_t k = 0; k + 1 < points.x.size(); ++k) {
      const auto [low, high] = std::minmax(points.y[k], points.y[k + 1]);
      for (int i = 0; i <= 20; ++i) {
        const double x = points.x[k] + (points.x[k + 1] - points.x[k]) * i / 20.0;
        RC_ASSERT(table(x) >= low - 1e-10);
        RC_ASSERT(table(x) <= high + 1e-10);
      }
    }
  }));
}

TEST_CASE("table: rising points give a rising curve, also beyond its ends") {
  CHECK(rc::check([] {
    const Points points = any_points(true);
    const Table table(points.x, points.y);
    double before = table(points.x.front() - 5.0);
    for (const double x : fine_grid(points, 20)) {
      RC_ASSERT(table(x) >= before - 1e-10);
      RC_ASSERT(table.slope(x) >= -1e-12);
      before = table(x);
    }
    RC_ASSERT(table(points.x.back() + 5.0) >= before - 1e-10);
  }));
}

TEST_CASE("table: the slope is the derivative of the value, and a Dual carries it") {
  CHECK(rc::check([] {
    const Points points = any_points(false);
    const Table table(points.x, points.y);
    const double span = points.x.back() - points.x.front();
    const double x = points.x.front() + span * (*rc::gen::inRange(-200, 1200)) * 1e-3;
    const double h = 1e-6;
    // A corner of the second derivative costs h times its jump: widths of 0.01, heights of 10.
    const double difference = (table(x + h) - table(x - h)) / (2.0 * h);
    const double curvature = 10.0 / (0.01 * 0.01) * 12.0;
    RC_ASSERT(std::abs(table.slope(x) - difference) < h * curvature + 1e-7);
    RC_ASSERT(table(Dual<1>::input(x, 0)).slope[0] == table.slope(x));
  }));
}

TEST_CASE("table: the integral is what a quadrature of the curve gives, also beyond its ends") {
  CHECK(rc::check([] {
    const Points points = any_points(false);
    const Table table(points.x, points.y);
    std::vector<double> stops = points.x;
    stops.insert(stops.begin(), points.x.front() - 1.5);
    stops.push_back(points.x.back() + 2.5);
    // Simpson's rule is exact for cubics, so one panel a piece is enough.
    double sum = table.integral(stops.front());
    for (std::size_t k = 0; k + 1 < stops.size(); ++k) {
      const double a = stops[k];
      const double b = stops[k + 1];
      sum += (b - a) / 6.0 * (table(a) + 4.0 * table(0.5 * (a + b)) + table(b));
      const double size = std::max(1.0, std::abs(sum));
      RC_ASSERT(std::abs(table.integral(b) - sum) < 1e-9 * size * static_cast<double>(k + 1));
    }
  }));
  const Table table({0.0, 1.0, 3.0}, {2.0, 5.0, 4.0});
  CHECK(table.integral(0.0) == 0.0);
}

TEST_CASE("table: a straight line stays one, a single point is a constant") {
  const Table line({1.0, 2.0, 4.0, 8.0}, {3.0, 5.0, 9.0, 17.0});
  for (double x = -3.0; x < 12.0; x += 0.37) {
    CHECK(line(x) == doctest::Approx(2.0 * x + 1.0).epsilon(1e-12));
    CHECK(line.slope(x) == doctest::Approx(2.0).epsilon(1e-12));
  }
  const Table constant({5.0}, {7.0});
  CHECK(constant(-1.0) == 7.0);
  CHECK(constant.slope(9.0) == 0.0);
  CHECK(constant.integral(6.0) == 7.0);
}

TEST_CASE("table: scaled ordinates scale the curve") {
  const Table table({0.0, 1.0, 3.0}, {2.0, 5.0, 4.0});
  const Table scaled = table.scaled(-2.5);
  for (double x = -1.0; x < 4.0; x += 0.21) {
    CHECK(scaled(x) == doctest::Approx(-2.5 * table(x)).epsilon(1e-12));
  }
}

TEST_CASE("table: points that do not rise, or do not pair, break the contract") {
  using tideover::base::ContractFault;
  CHECK_THROWS_AS(Table({1.0, 1.0}, {0.0, 1.0}), ContractFault);
  CHECK_THROWS_AS(Table({2.0, 1.0}, {0.0, 1.0}), ContractFault);
  CHECK_THROWS_AS(Table({1.0, 2.0}, {0.0}), ContractFault);
  CHECK_THROWS_AS(Table(std::vector<double>{}, std::vector<double>{}), ContractFault);
}

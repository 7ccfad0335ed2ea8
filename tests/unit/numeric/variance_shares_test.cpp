#include "numeric/variance_shares.hpp"

#include <array>
#include <cmath>
#include <functional>
#include <numbers>
#include <span>
#include <vector>

#include <doctest/doctest.h>

#include "base/contract.hpp"
#include "numeric/pick_freeze_points.hpp"
#include "quantity/spread.hpp"

namespace {

using namespace tideover;
using numeric::PickFreeze;
using numeric::PickFreezePoints;
using numeric::variance_shares;
using numeric::VarianceShares;

using Function = std::function<double(std::span<const double>)>;

PickFreeze evaluate(const PickFreezePoints& points, int count, const Function& function) {
  PickFreeze values;
  values.at_mixed.resize(static_cast<std::size_t>(points.groups()));
  std::vector<double> u(static_cast<std::size_t>(points.inputs()));
  for (int k = 0; k < count; ++k) {
    const auto index = static_cast<std::uint64_t>(k);
    points.at_a(index, u);
    values.at_a.push_back(function(u));
    points.at_b(index, u);
    values.at_b.push_back(function(u));
    for (int group = 0; group < points.groups(); ++group) {
      points.at_mixed(group, index, u);
      values.at_mixed[static_cast<std::size_t>(group)].push_back(function(u));
    }
  }
  return values;
}

using Groups = std::vector<std::vector<int>>;

VarianceShares shares_of(int inputs, const Groups& groups, int replicates, int count,
                         const Function& function) {
  std::vector<PickFreeze> values;
  for (int r = 0; r < replicates; ++r) {
    const PickFreezePoints points(inputs, groups, static_cast<std::uint64_t>(r));
    values.push_back(evaluate(points, count, function));
  }
  return variance_shares(values);
}

/// Within five of its own standard errors, and those small enough to be of use.
void check_share(double share, double error, double expected) {
  CHECK(std::abs(share - expected) <= 5.0 * error + 1e-12);
  CHECK(error < 0.02);
}

/// A normal deviate cut at three deviations, as measured values are drawn.
double deviate(double u) {
  quantity::Amount unit(-2.0, 0.0, 2.0);
  unit.origin = quantity::Origin::Measured;
  return quantity::Spread(unit).at(u);
}

/// Variance of a unit normal cut at +-3: 1 - 6 phi(3) / (2 Phi(3) - 1).
constexpr double variance_of_deviate = 0.973337;

}  // namespace

TEST_CASE("variance shares: Ishigami's function has its published shares") {
  // Ishigami and Homma 1990 with a = 7, b = 0.1; closed forms in Saltelli et al., Sensitivity
  // Analysis, 2000 (from memory): V1 = (1 + b pi^4/5)^2/2, V2 = a^2/8, V13 = 8 b^2 pi^8/225.
  const auto shares = shares_of(3, {{0}, {1}, {2}}, 16, 1024, [](std::span<const double> u) {
    const auto angle = [&](std::size_t k) { return std::numbers::pi * (2.0 * u[k] - 1.0); };
    const double second = std::sin(angle(1));
    return std::sin(angle(0)) * (1.0 + 0.1 * std::pow(angle(2), 4)) + 7.0 * second * second;
  });
  constexpr std::array first{0.3139, 0.4424, 0.0};
  constexpr std::array total{0.5576, 0.4424, 0.2437};
  for (std::size_t k = 0; k < 3; ++k) {
    check_share(shares.groups[k].first, shares.groups[k].first_error + 1e-5, first[k]);
    check_share(shares.groups[k].total, shares.groups[k].total_error + 1e-5, total[k]);
  }
  CHECK(shares.mean == doctest::Approx(3.5).epsilon(0.01));
  CHECK(shares.variance == doctest::Approx(13.845).epsilon(0.02));
}

TEST_CASE("variance shares: of a sum they are the squared coefficients, first and total alike") {
  const std::array coefficients{1.0, -2.0, 3.0, 0.0};
  const auto shares = shares_of(4, {{0}, {1}, {2}, {3}}, 16, 512, [&](std::span<const double> u) {
    double sum = 40.0;
    for (std::size_t k = 0; k < 4; ++k) sum += coefficients[k] * u[k];
    return sum;
  });
  CHECK(shares.variance == doctest::Approx(14.0 / 12.0).epsilon(1e-3));
  for (std::size_t k = 0; k < 4; ++k) {
    const double expected = coefficients[k] * coefficients[k] / 14.0;
    check_share(shares.groups[k].first, shares.groups[k].first_error, expected);
    check_share(shares.groups[k].total, shares.groups[k].total_error, expected);
  }
}

TEST_CASE("variance shares: of a product of normals, what both make together is in the totals") {
  // (2 + X)(1 + Y), v the variance of either: V = v + 4 v + v v.
  const double v = variance_of_deviate;
  const double whole = 5.0 * v + v * v;
  const auto shares = shares_of(2, {{0}, {1}}, 16, 1024, [](std::span<const double> u) {
    return (2.0 + deviate(u[0])) * (1.0 + deviate(u[1]));
  });
  CHECK(shares.variance == doctest::Approx(whole).epsilon(0.01));
  check_share(shares.groups[0].first, shares.groups[0].first_error, v / whole);
  check_share(shares.groups[1].first, shares.groups[1].first_error, 4.0 * v / whole);
  check_share(shares.groups[0].total, shares.groups[0].total_error, (v + v * v) / whole);
  check_share(shares.groups[1].total, shares.groups[1].total_error, (4.0 * v + v * v) / whole);
}

TEST_CASE("variance shares: inputs of one group count together, with what they do to each other") {
  // x y with both in one group, beside z: within the group nothing is left to interact.
  const auto shares = shares_of(
      3, {{0, 2}, {1}, {0, 1, 2}}, 16, 1024,
      [](std::span<const double> u) { return 12.0 * (u[0] - 0.5) * (u[2] - 0.5) + (u[1] - 0.5); });
  // Var(12 x y) = 144/144 = 1, Var(z) = 1/12.
  const double whole = 13.0 / 12.0;
  check_share(shares.groups[0].first, shares.groups[0].first_error, 1.0 / whole);
  check_share(shares.groups[0].total, shares.groups[0].total_error, 1.0 / whole);
  check_share(shares.groups[1].first, shares.groups[1].first_error, 1.0 / 12.0 / whole);
  check_share(shares.groups[1].total, shares.groups[1].total_error, 1.0 / 12.0 / whole);
  // A group of all of them is the whole, whatever else its inputs are grouped in.
  check_share(shares.groups[2].first, shares.groups[2].first_error, 1.0);
  check_share(shares.groups[2].total, shares.groups[2].total_error, 1.0);
}

TEST_CASE("variance shares: the stated error is as large as the scatter of whole estimates") {
  const auto function = [](std::span<const double> u) { return u[0] * u[1] + u[2]; };
  double error = 0.0;
  double sum = 0.0;
  double squares = 0.0;
  constexpr int repeats = 60;
  for (std::uint64_t r = 0; r < repeats; ++r) {
    std::vector<PickFreeze> values;
    for (std::uint64_t k = 0; k < 8; ++k) {
      values.push_back(evaluate(PickFreezePoints(3, {{0}}, 8 * r + k), 64, function));
    }
    const auto share = variance_shares(values).groups[0];
    error += share.total_error / repeats;
    sum += share.total;
    squares += share.total * share.total;
  }
  const double scatter = std::sqrt((squares - sum * sum / repeats) / (repeats - 1));
  // A standard deviation from 60 has an error of 9 %, a mean of errors from 8 each some 3 %.
  CHECK(error / scatter == doctest::Approx(1.0).epsilon(0.35));
}

TEST_CASE(
    "variance shares: a control that follows the result leaves the shares and takes scatter") {
  const auto result = [](std::span<const double> u) {
    return 4.0 * u[0] + 2.0 * u[1] + 0.5 * (u[0] - 0.5) * (u[1] - 0.5);
  };
  const auto control_at = [](std::span<const double> u) { return 4.1 * u[0] + 1.9 * u[1]; };
  std::vector<PickFreeze> values;
  numeric::Control control{{}, {4.1 * 4.1 / 12.0, 1.9 * 1.9 / 12.0}, 0.0};
  control.variance = control.parts[0] + control.parts[1];
  for (std::uint64_t r = 0; r < 8; ++r) {
    const PickFreezePoints points(2, {{0}, {1}}, r);
    values.push_back(evaluate(points, 4, result));
    control.replicates.push_back(evaluate(points, 4, control_at));
  }
  // Of the product: 0.25/144 in all, of both inputs alike.
  const double together = 0.25 / 144.0;
  const double whole = 20.0 / 12.0 + together;
  const VarianceShares plain = variance_shares(values);
  const VarianceShares held = variance_shares(values, control);
  CHECK(std::abs(held.groups[0].first - 16.0 / 12.0 / whole) < 5.0 * held.groups[0].first_error);
  CHECK(std::abs(held.groups[1].total - (4.0 / 12.0 + together) / whole) <
        5.0 * held.groups[1].total_error);
  CHECK(held.groups[0].first_error < 0.3 * plain.groups[0].first_error);
}

TEST_CASE("variance shares: what does not vary has no shares") {
  const auto shares = shares_of(2, {{0}, {1}}, 2, 16, [](std::span<const double>) { return 24.0; });
  CHECK(shares.mean == 24.0);
  CHECK(shares.variance == 0.0);
  CHECK(shares.groups[0].first == 0.0);
  CHECK(shares.groups[1].total_error == 0.0);
}

TEST_CASE("variance shares: a mixture differs from A in its group and nowhere else") {
  const PickFreezePoints points(4, {{3}, {1, 2}}, 11);
  std::vector<double> a(4);
  std::vector<double> b(4);
  std::vector<double> mixed(4);
  points.at_a(77, a);
  points.at_b(77, b);
  points.at_mixed(1, 77, mixed);
  CHECK(mixed == std::vector{a[0], b[1], b[2], a[3]});
  CHECK(a[0] != b[0]);
}

TEST_CASE(
    "variance shares: one replicate, groups of no inputs or unlike lengths break the contract") {
  using base::ContractFault;
  const std::vector<PickFreeze> one(1, PickFreeze{{1, 2}, {1, 2}, {}});
  CHECK_THROWS_AS(static_cast<void>(variance_shares(one)), ContractFault);
  const std::vector<PickFreeze> unlike{{{1, 2}, {1, 2}, {{1, 2}}}, {{1, 2}, {1, 2}, {{1}}}};
  CHECK_THROWS_AS(static_cast<void>(variance_shares(unlike)), ContractFault);
  CHECK_THROWS_AS(PickFreezePoints(2, {{0, 2}}, 1), ContractFault);
  CHECK_THROWS_AS(PickFreezePoints(2, {{-1}}, 1), ContractFault);
  CHECK_THROWS_AS(PickFreezePoints(2, {{}}, 1), ContractFault);
  CHECK_THROWS_AS(PickFreezePoints(0, {}, 1), ContractFault);
}

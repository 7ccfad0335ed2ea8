// Planned elimination against a dense factorisation by Eigen.
#include "numeric/elimination.hpp"

#include <cmath>
#include <random>
#include <vector>

#include <Eigen/Dense>
#include <doctest/doctest.h>

namespace {

using tideover::numeric::Elimination;
using tideover::numeric::Pattern;
using tideover::numeric::PatternMaker;

struct Sparse {
  Pattern pattern;
  std::vector<double> entries;  ///< one slot more than entry_count(), as a System fills it

  [[nodiscard]] Eigen::MatrixXd dense() const {
    Eigen::MatrixXd a = Eigen::MatrixXd::Zero(pattern.size(), pattern.size());
    for (int r = 0; r < pattern.size(); ++r) {
      for (int e = pattern.row_start()[static_cast<std::size_t>(r)];
           e < pattern.row_start()[static_cast<std::size_t>(r) + 1]; ++e) {
        const auto at = static_cast<std::size_t>(e);
        a(r, pattern.column()[at]) = entries[at];
      }
    }
    return a;
  }
};

Sparse matrix(int size, const std::vector<std::pair<int, int>>& places) {
  PatternMaker maker(size);
  for (const auto& [row, column] : places) maker.add(row, column);
  Sparse sparse{std::move(maker).make(), {}};
  sparse.entries.assign(static_cast<std::size_t>(sparse.pattern.entry_count()) + 1, 0.0);
  return sparse;
}

void set(Sparse& sparse, int row, int column, double value) {
  sparse.entries[static_cast<std::size_t>(sparse.pattern.find(row, column))] = value;
}

Sparse random_matrix(std::mt19937& random, int size, double per_row) {
  std::uniform_int_distribution<int> place(0, size - 1);
  std::vector<std::pair<int, int>> places;
  for (int k = 0; k < static_cast<int>(per_row * size); ++k) {
    places.emplace_back(place(random), place(random));
  }
  return matrix(size, places);
}

/// Every entry between -1 and 1; with `dominant`, the diagonal outweighs its row.
void fill(Sparse& sparse, std::mt19937& random, bool dominant) {
  std::uniform_real_distribution<double> number(-1.0, 1.0);
  for (double& entry : sparse.entries) entry = number(random);
  if (!dominant) return;
  for (int r = 0; r < sparse.pattern.size(); ++r) {
    double sum = 0.1;
    for (int e = sparse.pattern.row_start()[static_cast<std::size_t>(r)];
         e < sparse.pattern.row_start()[static_cast<std::size_t>(r) + 1]; ++e) {
      sum += std::abs(sparse.entries[static_cast<std::size_t>(e)]);
    }
    set(sparse, r, r, sum);
  }
}

std::vector<double> right_side(std::mt19937& random, int size) {
  std::uniform_real_distribution<double> number(-1.0, 1.0);
  std::vector<double> b(static_cast<std::size_t>(size));
  for (double& value : b) value = number(random);
  return b;
}

/// |A x - b| over |A| |x| + |b|: the backward error of Rigal and Gaches.
double backward_error(const Sparse& sparse, const std::vector<double>& x,
                      const std::vector<double>& b) {
  const Eigen::MatrixXd a = sparse.dense();
  const Eigen::Map<const Eigen::VectorXd> vx(x.data(), static_cast<Eigen::Index>(x.size()));
  const Eigen::Map<const Eigen::VectorXd> vb(b.data(), static_cast<Eigen::Index>(b.size()));
  const double residual = (a * vx - vb).lpNorm<Eigen::Infinity>();
  return residual / (a.cwiseAbs().rowwise().sum().maxCoeff() * vx.lpNorm<Eigen::Infinity>() +
                     vb.lpNorm<Eigen::Infinity>());
}

}  // namespace

TEST_CASE("elimination: random diagonally dominant matrices, as accurate as a dense one") {
  std::mt19937 random(1);
  for (int trial = 0; trial < 200; ++trial) {
    CAPTURE(trial);
    const int size = 1 + trial / 3;
    Sparse sparse = random_matrix(random, size, 1.0 + trial % 5);
    fill(sparse, random, true);
    Elimination elimination(sparse.pattern);
    REQUIRE(elimination.plan(sparse.entries));
    const auto b = right_side(random, size);
    auto x = b;
    elimination.solve(x);
    const Eigen::Map<const Eigen::VectorXd> vb(b.data(), size);
    const Eigen::VectorXd expected = sparse.dense().partialPivLu().solve(vb);
    for (int k = 0; k < size; ++k) {
      CHECK(x[static_cast<std::size_t>(k)] == doctest::Approx(expected[k]).epsilon(1e-11));
    }
    CHECK(backward_error(sparse, x, b) < 1e-14);
  }
}

TEST_CASE("elimination: random matrices of any kind, where a dense one finds them regular") {
  std::mt19937 random(2);
  int solved = 0;
  for (int trial = 0; trial < 300; ++trial) {
    CAPTURE(trial);
    const int size = 2 + trial / 5;
    Sparse sparse = random_matrix(random, size, 4.0);
    fill(sparse, random, false);
    Elimination elimination(sparse.pattern);
    const Eigen::FullPivLU<Eigen::MatrixXd> dense(sparse.dense());
    if (dense.rcond() < 1e-8) continue;
    REQUIRE(elimination.plan(sparse.entries));
    const auto b = right_side(random, size);
    auto x = b;
    elimination.solve(x);
    // Threshold pivoting lets numbers grow: a factor of 1e3 a pivot at worst, in practice far less.
    CHECK(backward_error(sparse, x, b) < 1e-9);
    ++solved;
  }
  CHECK(solved > 200);
}

TEST_CASE(
    "elimination: a plan replayed on its own numbers and on others gives what a new one gives") {
  std::mt19937 random(3);
  for (int trial = 0; trial < 60; ++trial) {
    CAPTURE(trial);
    Sparse sparse = random_matrix(random, 40, 3.0);
    fill(sparse, random, true);
    Elimination elimination(sparse.pattern);
    REQUIRE(elimination.plan(sparse.entries));
    const auto b = right_side(random, 40);
    auto planned = b;
    elimination.solve(planned);
    REQUIRE(elimination.factor(sparse.entries));
    auto replayed = b;
    elimination.solve(replayed);
    CHECK(replayed == planned);
    fill(sparse, random, true);
    REQUIRE(elimination.factor(sparse.entries));
    auto other = b;
    elimination.solve(other);
    CHECK(backward_error(sparse, other, b) < 1e-14);
  }
}

TEST_CASE("elimination: a plan whose pivot has vanished is refused, and a new one is found") {
  Sparse sparse = matrix(2, {{0, 1}, {1, 0}});
  set(sparse, 0, 0, 1.0);
  set(sparse, 0, 1, 2.0);
  set(sparse, 1, 0, 3.0);
  set(sparse, 1, 1, 1.0);
  Elimination elimination(sparse.pattern);
  REQUIRE(elimination.plan(sparse.entries));
  for (const double pivot : {0.0, 1e-16, -1e-15}) {
    CAPTURE(pivot);
    set(sparse, 0, 0, pivot);
    set(sparse, 1, 1, pivot);
    CHECK_FALSE(elimination.factor(sparse.entries));
    REQUIRE(elimination.plan(sparse.entries));
    std::vector<double> x{2.0, 3.0};
    elimination.solve(x);
    CHECK(x[0] == doctest::Approx(1.0));
    CHECK(x[1] == doctest::Approx(1.0));
    set(sparse, 0, 0, 1.0);
    set(sparse, 1, 1, 1.0);
    REQUIRE(elimination.plan(sparse.entries));
  }
}

TEST_CASE("elimination: what is singular or no number is refused") {
  Sparse sparse = matrix(3, {{0, 1}, {1, 0}, {1, 2}, {2, 1}, {0, 2}, {2, 0}});
  Elimination elimination(sparse.pattern);
  CHECK_FALSE(elimination.plan(sparse.entries));  // all zero
  const auto fill_rows = [&](double last) {
    for (int c = 0; c < 3; ++c) {
      set(sparse, 0, c, 1.0 + c);
      set(sparse, 1, c, 2.0 * c - 1.0);
      set(sparse, 2, c, 3.0 * c);
    }
    set(sparse, 2, 2, last);  // row 2 = row 0 + row 1, but for this one
  };
  fill_rows(6.0);
  CHECK_FALSE(elimination.plan(sparse.entries));
  fill_rows(7.0);
  CHECK(elimination.plan(sparse.entries));
  set(sparse, 1, 1, std::nan(""));
  CHECK_FALSE(elimination.factor(sparse.entries));
}

TEST_CASE("elimination: one unknown, and a matrix that is a permutation") {
  Sparse one = matrix(1, {});
  set(one, 0, 0, 4.0);
  Elimination small(one.pattern);
  REQUIRE(small.plan(one.entries));
  std::vector<double> x{2.0};
  small.solve(x);
  CHECK(x[0] == 0.5);

  Sparse turn = matrix(5, {{0, 1}, {1, 2}, {2, 3}, {3, 4}, {4, 0}});
  for (int k = 0; k < 5; ++k) set(turn, k, (k + 1) % 5, k + 1.0);
  Elimination elimination(turn.pattern);
  REQUIRE(elimination.plan(turn.entries));
  std::vector<double> b{1.0, 2.0, 3.0, 4.0, 5.0};
  elimination.solve(b);
  for (const double value : b) CHECK(value == doctest::Approx(1.0));
}

TEST_CASE("elimination: conductances from an open contact to a closed one, twelve decades apart") {
  // A chain of leads of 1 mohm that hangs on the rest by an open contact only, as an island does.
  const int size = 6;
  std::vector<std::pair<int, int>> places;
  for (int k = 0; k + 1 < size; ++k) {
    places.emplace_back(k, k + 1);
    places.emplace_back(k + 1, k);
  }
  Sparse sparse = matrix(size, places);
  const std::vector<double> g{1e3, 1e3, 1e-9, 1e3, 1e3};
  for (int k = 0; k < size; ++k) {
    double sum = k == 0 ? 10.0 : 1e-10;
    if (k > 0) sum += g[static_cast<std::size_t>(k) - 1];
    if (k + 1 < size) sum += g[static_cast<std::size_t>(k)];
    set(sparse, k, k, sum);
    if (k + 1 < size) {
      set(sparse, k, k + 1, -g[static_cast<std::size_t>(k)]);
      set(sparse, k + 1, k, -g[static_cast<std::size_t>(k)]);
    }
  }
  Elimination elimination(sparse.pattern);
  REQUIRE(elimination.plan(sparse.entries));
  std::vector<double> b(static_cast<std::size_t>(size), 0.0);
  b[0] = 120.0;  // a source of 12 V behind 0.1 ohm
  auto x = b;
  elimination.solve(x);
  CHECK(x[2] == doctest::Approx(12.0).epsilon(1e-6));
  // Three nodes of 1e-10 S leak on 1e-9 S: 12 V * 1e-9 / 1.3e-9, all of them alike. The leak is the
  // last digit of 1e3, so a tenth is all that can be asked.
  CHECK(x[5] == doctest::Approx(12.0 / 1.3).epsilon(0.1));
  CHECK(x[3] == doctest::Approx(x[5]).epsilon(1e-6));
}

TEST_CASE("elimination: a tree of leads factors without any fill") {
  const int size = 60;
  std::vector<std::pair<int, int>> places;
  for (int k = 1; k < size; ++k) {
    places.emplace_back(k, k / 2);
    places.emplace_back(k / 2, k);
  }
  Sparse sparse = matrix(size, places);
  std::mt19937 random(4);
  fill(sparse, random, true);
  Elimination elimination(sparse.pattern);
  REQUIRE(elimination.plan(sparse.entries));
  CHECK(elimination.fill_count() == sparse.pattern.entry_count());
}

#include "part/converter/loss_fit.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/contract.hpp"

namespace tideover::part {

using namespace quantity;

namespace {

constexpr std::size_t terms = 3;
constexpr std::size_t most_readings = 5;
using Row = std::array<double, terms>;

constexpr double reading_trust = 1e-4;  ///< of its input power
/// How far a term may lie from its class: a share of it and a least amount (A, V, ohm).
constexpr Row share{1.0, 0.3, 0.3};
constexpr Row least{1e-3, 0.03, 0.01};
constexpr std::array<std::string_view, terms> names{"idle", "linear", "square"};

/// One reading as an equation: sum of weight x move = missing, in units of its trust.
struct Equation {
  Row weight{};
  double missing = 0.0;
};

Row feel(const LossReading& reading) {
  const double i = reading.output_current.si();
  return {reading.input.si(), i, i * i};
}

/// Solves the symmetric positive definite 3x3 system by elimination; rows of fixed terms are unit.
Row solve(std::array<Row, terms> a, Row b) {
  for (std::size_t k = 0; k < terms; ++k) {
    for (std::size_t r = k + 1; r < terms; ++r) {
      const double factor = a[r][k] / a[k][k];
      for (std::size_t c = k; c < terms; ++c) a[r][c] -= factor * a[k][c];
      b[r] -= factor * b[k];
    }
  }
  Row x{};
  for (std::size_t k = terms; k-- > 0;) {
    double sum = b[k];
    for (std::size_t c = k + 1; c < terms; ++c) sum -= a[k][c] * x[c];
    x[k] = sum / a[k][k];
  }
  return x;
}

/// Best moves with the terms in `fixed` held at `held`.
Row best_moves(std::span<const Equation> equations, unsigned fixed, const Row& held) {
  std::array<Row, terms> a{};
  Row b{};
  const auto is_fixed = [fixed](std::size_t k) { return (fixed >> k & 1U) != 0U; };
  for (std::size_t k = 0; k < terms; ++k) a[k][k] = 1.0;
  for (const Equation& e : equations) {
    double missing = e.missing;
    for (std::size_t k = 0; k < terms; ++k) {
      if (is_fixed(k)) missing -= e.weight[k] * held[k];
    }
    for (std::size_t r = 0; r < terms; ++r) {
      if (is_fixed(r)) continue;
      b[r] += e.weight[r] * missing;
      for (std::size_t c = 0; c < terms; ++c) {
        if (!is_fixed(c)) a[r][c] += e.weight[r] * e.weight[c];
      }
    }
  }
  for (std::size_t k = 0; k < terms; ++k) {
    if (is_fixed(k)) b[k] = held[k];
  }
  return solve(a, b);
}

double cost(std::span<const Equation> equations, const Row& move) {
  double sum = 0.0;
  for (const double m : move) sum += m * m;
  for (const Equation& e : equations) {
    double rest = -e.missing;
    for (std::size_t k = 0; k < terms; ++k) rest += e.weight[k] * move[k];
    sum += rest * rest;
  }
  return sum;
}

/// All eight sets of terms at zero are tried: the best one without a negative term wins.
Row best_nonnegative(std::span<const Equation> equations, const Row& to_zero) {
  Row best = to_zero;
  double least_cost = cost(equations, best);
  for (unsigned fixed = 0; fixed < 8U; ++fixed) {
    const Row move = best_moves(equations, fixed, to_zero);
    bool is_sound = true;
    for (std::size_t k = 0; k < terms; ++k) {
      is_sound = is_sound && move[k] >= to_zero[k] - 1e-12 * std::abs(to_zero[k]);
    }
    const double at_move = cost(equations, move);
    if (!is_sound || at_move >= least_cost) continue;
    best = move;
    least_cost = at_move;
  }
  return best;
}

/// What one reading says about the moves of terms from `start`, in units of their spreads.
Equation equation_of(const LossReading& reading, const Row& start, const Row& spread) {
  const double input_w = (reading.input * reading.input_current).si();
  TIDEOVER_EXPECT(input_w > 0.0, "a reading without input power");
  const double trust_w = reading_trust * input_w;
  const Row felt = feel(reading);
  double missing_w = input_w - (reading.output * reading.output_current).si();
  Equation equation;
  for (std::size_t k = 0; k < terms; ++k) {
    missing_w -= felt[k] * start[k];
    equation.weight[k] = felt[k] * spread[k] / trust_w;
  }
  equation.missing = missing_w / trust_w;
  return equation;
}

}  // namespace

LossFit fit_losses(const Losses& of_class, std::span<const LossReading> readings) {
  TIDEOVER_EXPECT(readings.size() <= most_readings, "more readings than a converter may have");
  if (readings.empty()) return {of_class, "none"};
  const Row start{of_class.idle.si(), of_class.linear.si(), of_class.square.si()};
  Row spread{};
  Row to_zero{};
  for (std::size_t k = 0; k < terms; ++k) {
    spread[k] = std::max(share[k] * start[k], least[k]);
    to_zero[k] = -start[k] / spread[k];
  }
  std::array<Equation, most_readings> equations{};
  for (std::size_t n = 0; n < readings.size(); ++n) {
    equations[n] = equation_of(readings[n], start, spread);
  }
  const Row move = best_nonnegative({equations.data(), readings.size()}, to_zero);
  const Row& felt = equations[0].weight;
  std::size_t most = 0;
  Row found{};
  for (std::size_t k = 0; k < terms; ++k) {
    found[k] = std::max(start[k] + spread[k] * move[k], 0.0);
    if (std::abs(felt[k] * move[k]) > std::abs(felt[most] * move[most])) most = k;
  }
  return {{Ampere::of_si(found[0]), Volt::of_si(found[1]), Ohm::of_si(found[2])}, names[most]};
}

}  // namespace tideover::part

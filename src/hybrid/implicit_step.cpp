#include "hybrid/implicit_step.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"

namespace tideover::hybrid {

namespace {

constexpr int most_iterations = 40;
/// Newton stops when what is left is this share of the error a step may make.
constexpr double newton_share = 0.03;
/// An iteration that has not shrunk by then goes on with half steps.
constexpr int patient_iterations = 6;
constexpr int mild_filters = 2;
constexpr double least_contraction = 1e-3;
/// Slower contraction than this asks for a new matrix before the next step.
constexpr double slow_contraction = 0.1;
/// A jump of an unknown by more than this share of its magnitude asks for a new matrix.
constexpr double far_jump_share = 0.1;
/// No first guess moves further than this share of an unknown's typical magnitude.
constexpr double farthest_guess = 0.1;
/// A step that differential unknowns cannot feel, for solving the algebraic ones alone.
constexpr double no_time_s = 1e-15;

}  // namespace

ImplicitStep::ImplicitStep(const System& system, const Tableau& tableau, double relative,
                           Statistics& statistics)
    : system_(system),
      smooth_tableau_(tableau),
      event_tableau_(tableau.gamma == sdirk_43().gamma ? sdirk_43() : tableau),
      tableau_(&tableau),
      relative_(relative),
      statistics_(statistics),
      differential_(system.differential()),
      scale_(system.scale()),
      stride_(system.stride()),
      elimination_(system.pattern()) {
  const auto n = static_cast<std::size_t>(system.size());
  const auto entries = static_cast<std::size_t>(system.pattern().entry_count());
  jacobian_.resize(entries + 1);
  matrix_.resize(entries + 1);
  for (int k = 0; k < system.size(); ++k) {
    const bool is_differential = differential_[static_cast<std::size_t>(k)] != 0;
    mass_.push_back(is_differential ? 1.0 : 0.0);
    if (std::isfinite(stride_[static_cast<std::size_t>(k)])) strided_.push_back(k);
    if (!is_differential) continue;
    states_.push_back(k);
    state_diagonal_.push_back(system.pattern().find(k, k));
  }
  stages_.assign(static_cast<std::size_t>(tableau.stages), std::vector<double>(n));
  slopes_ = stages_;
  base_.resize(n);
  rates_.resize(n);
  delta_.resize(n);
  weight_.resize(n);
  drift_.resize(n);
}

void ImplicitStep::weigh(std::span<const double> y) {
  for (std::size_t k = 0; k < y.size(); ++k) {
    weight_[k] = 1.0 / (relative_ * std::max(std::abs(y[k]), scale_[k]));
  }
}

void ImplicitStep::refresh_jacobian(std::span<const double> y) {
  system_.jacobian(y, rates_, jacobian_);
  ++statistics_.jacobian_evaluations;
  jacobian_exists_ = true;
  factored_for_ = 0.0;
}

void ImplicitStep::evaluate(std::span<const double> y) {
  system_.rates(y, rates_);
  ++statistics_.rate_evaluations;
}

bool ImplicitStep::factor(double gamma_h) {
  if (factored_for_ == gamma_h) return true;
  const double inverse = 1.0 / gamma_h;
  double* const matrix = matrix_.data();
  const double* const jacobian = jacobian_.data();
  for (std::size_t e = 0; e < matrix_.size(); ++e) matrix[e] = -jacobian[e];
  for (const int entry : state_diagonal_) matrix[entry] += inverse;
  factored_for_ = 0.0;
  ++statistics_.factorisations;
  if (!elimination_.is_planned() || !elimination_.factor(matrix_)) {
    ++statistics_.plans;
    if (!elimination_.plan(matrix_)) return false;
  }
  factored_for_ = gamma_h;
  return true;
}

/// One Newton update of y for (y - base)/(gamma h) = f(y), 0 = f(y); returns its weighted size.
/// rates_ holds f(y).
double ImplicitStep::newton_update(std::span<double> unknowns, double gamma_h) {
  const double inverse = 1.0 / gamma_h;
  const std::size_t n = unknowns.size();
  double* const y = unknowns.data();
  double* const delta = delta_.data();
  const double* const base = base_.data();
  const double* const mass = mass_.data();
  const double* const rates = rates_.data();
  for (std::size_t k = 0; k < n; ++k) delta[k] = rates[k] - mass[k] * inverse * (y[k] - base[k]);
  elimination_.solve(delta_);
  const double* const weight = weight_.data();
  double size = 0.0;
  double sum = 0.0;  // what is not a number may get lost in a maximum, never in a sum
  for (std::size_t k = 0; k < n; ++k) {
    y[k] += delta[k];
    const double part = std::abs(delta[k]) * weight[k];
    size = std::max(size, part);
    sum += part;
  }
  return std::isfinite(sum) ? size : sum;
}

bool ImplicitStep::solve_algebraic(std::span<double> y) {
  std::copy(y.begin(), y.end(), base_.begin());
  weigh(y);
  double before = 0.0;
  bool is_solved = false;
  contraction_ = 1.0;
  for (int iteration = 0; iteration < most_iterations && !is_solved; ++iteration) {
    if (contraction_ > slow_contraction) {
      refresh_jacobian(y);
    } else {
      evaluate(y);
    }
    if (!factor(no_time_s)) break;
    const double size = newton_update(y, no_time_s);
    if (!std::isfinite(size)) break;
    // The first correction is that of the jump itself: its size says nothing of convergence, but a
    // far one leaves the matrix behind.
    const bool is_far = size * relative_ > far_jump_share;
    contraction_ = iteration == 0 ? (is_far ? 1.0 : slow_contraction) : size / before;
    is_solved = size < newton_share || (iteration > 8 && size < 1.0 && size >= before);
    before = size;
  }
  for (const int k : states_) y[static_cast<std::size_t>(k)] = base_[static_cast<std::size_t>(k)];
  if (!is_solved) modes_changed();
  return is_solved;
}

void ImplicitStep::guess(std::size_t stage, double h) {
  std::vector<double>& guessed = stages_[stage];
  if (tableau_->uses_first_slope) {
    guess_smoothly(stage, h);
    return;
  }
  guessed = stages_[stage - 1];
}

/// Where the solution is smooth, the stages so far foretell the next: the parabola through stage 0
/// and the two last ones, the line for the second stage, the drift of the last step for the first.
void ImplicitStep::guess_smoothly(std::size_t stage, double h) {
  const std::size_t n = base_.size();
  double* const guessed = stages_[stage].data();
  const double* const first = stages_[0].data();
  const auto& c = tableau_->c;
  if (stage == 1) {
    for (std::size_t k = 0; k < n; ++k) {
      const double move = c[1] * h * drift_[k];
      guessed[k] = first[k] + (std::abs(move) < farthest_guess * scale_[k] ? move : 0.0);
    }
    return;
  }
  const double* const last = stages_[stage - 1].data();
  if (stage == 2) {
    const double share = c[2] / c[1];
    for (std::size_t k = 0; k < n; ++k) guessed[k] = first[k] + share * (last[k] - first[k]);
    return;
  }
  const double* const middle = stages_[stage - 2].data();
  const double x = c[stage];
  const double p = c[stage - 2];
  const double q = c[stage - 1];
  const double of_middle = x * (x - q) / (p * (p - q));
  const double of_last = x * (x - p) / (q * (q - p));
  const double of_first = 1.0 - of_middle - of_last;
  for (std::size_t k = 0; k < n; ++k) {
    guessed[k] = of_first * first[k] + of_middle * middle[k] + of_last * last[k];
  }
}

void ImplicitStep::begin_stage(std::size_t stage, double h) {
  double* const base = base_.data();
  const double* const first = stages_[0].data();
  for (const int k : states_) base[k] = first[k];
  for (std::size_t j = 0; j < stage; ++j) {
    const double share = h * tableau_->a[stage][j];
    if (share == 0.0) continue;
    const double* const slope = slopes_[j].data();
    for (const int k : states_) base[k] += share * slope[k];
  }
  guess(stage, h);
}

void ImplicitStep::accepted() {
  if (was_mild_) {
    std::fill(drift_.begin(), drift_.end(), 0.0);
    return;
  }
  const std::size_t last = stages_.size() - 1;
  const double span_s = (tableau_->c[last] - tableau_->c[last - 1]) * length_s_;
  for (std::size_t k = 0; k < drift_.size(); ++k) {
    drift_[k] =
        mass_[k] != 0.0 ? slopes_[last][k] : (stages_[last][k] - stages_[last - 1][k]) / span_s;
  }
}

void ImplicitStep::end_stage(std::size_t stage, double gamma_h) {
  double* const slope = slopes_[stage].data();
  const double* const value = stages_[stage].data();
  const double* const base = base_.data();
  const double inverse = 1.0 / gamma_h;
  for (const int k : states_) slope[k] = (value[k] - base[k]) * inverse;
}

/// Newton's iteration with the matrix at hand while that converges quickly, with a new one at each
/// iterate where it does not. A junction that turns from blocking to conducting sends the iteration
/// far before it comes back, so that growth alone is no reason to give up.
ImplicitStep::Solved ImplicitStep::solve_stage(std::size_t stage, double h) {
  const double gamma_h = tableau_->gamma * h;
  std::vector<double>& y = stages_[stage];
  begin_stage(stage, h);
  // What the last stage's convergence promises is trusted less for this one: Hairer and Wanner II,
  // IV.8 (from memory).
  contraction_ = std::pow(std::max(contraction_, least_contraction), 0.8);
  const int most_new_matrices = tableau_ == &smooth_tableau_ ? 5 : most_iterations;
  int new_matrices = 0;
  bool is_new = false;
  double before = 0.0;
  for (int iteration = 0; iteration < most_iterations; ++iteration) {
    if (!is_new) evaluate(y);
    if (!factor(gamma_h)) return Solved::No;
    const double size = newton_update(y, gamma_h);
    if (!std::isfinite(size)) return Solved::No;
    if (iteration > 0) contraction_ = is_new ? slow_contraction : size / std::max(before, 1e-300);
    if (contraction_ < 1.0 && contraction_ / (1.0 - contraction_) * size < newton_share) {
      end_stage(stage, gamma_h);
      return Solved::Yes;
    }
    const bool goes_in_circles = new_matrices > 1 && size > 0.6 * before && size < 1.7 * before;
    if (goes_in_circles || (new_matrices > patient_iterations && size > 0.7 * before)) {
      for (std::size_t u = 0; u < y.size(); ++u) y[u] -= 0.5 * delta_[u];
    }
    is_new = iteration > 0 && contraction_ >= slow_contraction;
    if (is_new && ++new_matrices > most_new_matrices) return Solved::No;
    if (is_new && new_matrices == 1 && contraction_ > 1.0) begin_stage(stage, h);
    if (is_new) refresh_jacobian(y);
    before = size;
  }
  return Solved::No;
}

ImplicitStep::Solved ImplicitStep::solve_stages(double h) {
  for (std::size_t stage = 1; stage < stages_.size(); ++stage) {
    if (solve_stage(stage, h) == Solved::No) return Solved::No;
  }
  return Solved::Yes;
}

ImplicitStep::Attempt ImplicitStep::attempt(std::span<const double> y,
                                            std::span<const double> slope, double h, From from) {
  tableau_ = from == From::Smooth ? &smooth_tableau_ : &event_tableau_;
  std::copy(y.begin(), y.end(), stages_[0].begin());
  std::copy(slope.begin(), slope.end(), slopes_[0].begin());
  length_s_ = h;
  was_mild_ = from == From::Mild;
  weigh(y);
  if (!jacobian_exists_ || contraction_ > slow_contraction) {
    refresh_jacobian(y);
    contraction_ = std::min(contraction_, 0.5);
  }
  if (solve_stages(h) == Solved::Yes) {
    const double error = judge(h, from);
    if (std::isfinite(error)) return {.converged = true, .error = error};
  }
  contraction_ = 1.0;
  modes_changed();
  return {};
}

/// The difference to the embedded method, seen through (1 - gamma h J)^-1: stiff unknowns that
/// have long settled within the step do not count. Source: Shampine, in Hairer and Wanner, Solving
/// Ordinary Differential Equations II, IV.8 (from memory). Seen through it three times, a
/// transient that is over at the end of the step leaves next to nothing.
double ImplicitStep::judge(double h, From from) {
  const auto& weights = tableau_->weights();
  const double inverse = 1.0 / (tableau_->gamma * h);
  std::fill(delta_.begin(), delta_.end(), 0.0);
  double* const delta = delta_.data();
  for (std::size_t i = 0; i < stages_.size(); ++i) {
    const double share = h * inverse * (weights[i] - tableau_->embedded[i]);
    if (share == 0.0) continue;
    const double* const slope = slopes_[i].data();
    for (const int k : states_) delta[k] += share * slope[k];
  }
  elimination_.solve(delta_);
  for (int again = 0; from == From::Mild && again < mild_filters; ++again) {
    for (std::size_t k = 0; k < delta_.size(); ++k) delta[k] *= mass_[k] * inverse;
    elimination_.solve(delta_);
  }
  double worst = 0.0;
  double sum = 0.0;
  for (const int k : states_) {
    const double error = std::abs(delta[k]) * weight_[static_cast<std::size_t>(k)];
    sum += error;
    if (error > worst) {
      worst = error;
      worst_ = k;
    }
  }
  if (!std::isfinite(sum)) return sum;
  // A stride taken twice as far counts as an error that the controller answers with half the step.
  for (const int k : strided_) {
    const auto at = static_cast<std::size_t>(k);
    const double strides = std::abs(stages_.back()[at] - stages_.front()[at]) / stride_[at];
    worst = std::max(worst, strides * strides * strides * strides);
  }
  return worst;
}

Step ImplicitStep::step(double begin_s) const {
  return {begin_s, begin_s + length_s_, tableau_, stages_, slopes_, differential_};
}

}  // namespace tideover::hybrid

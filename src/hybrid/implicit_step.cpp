#include "hybrid/implicit_step.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/contract.hpp"

namespace tideover::hybrid {

namespace {

constexpr int most_iterations = 40;
/// Newton stops when what is left is this share of the error a step may make.
constexpr double newton_share = 0.03;
/// The same where nothing follows that would mend it: the unknowns just after an event.
constexpr double algebraic_share = 1e-3;
/// More new matrices than this in one stage cost more than a shorter step; where a shorter one has
/// failed as well, some more are granted.
constexpr int most_new_matrices = 5;
constexpr int more_new_matrices = 3;
/// Less of a correction than this share of it is not worth trying.
constexpr double least_share = 0.02;
/// Where no share of a correction helps, the whole of it is taken for once: beyond the corner the
/// way may be open.
constexpr int most_leaps = 2;
constexpr int mild_filters = 2;
/// What a transient stepped over leaves behind dies away by itself: no later step builds on it, and
/// so this share of it counts.
constexpr double mild_share = 0.2;
constexpr double least_contraction = 1e-3;
/// Slower contraction than this asks for a new matrix before the next step.
constexpr double slow_contraction = 0.3;
/// No first guess moves further than this share of an unknown's typical magnitude.
constexpr double farthest_guess = 0.1;
/// A step that differential unknowns cannot feel, for solving the algebraic ones alone.
constexpr double no_time_s = 1e-15;

/// The largest |value| * weight; not finite if any is not. Eight side by side, so that one maximum
/// does not wait for the other.
double largest(std::span<const double> value, std::span<const double> weight) {
  constexpr std::size_t abreast = 8;
  std::array<double, abreast> most{};
  std::array<double, abreast> sum{};  // what is not a number gets lost in a maximum, never in a sum
  const std::size_t n = value.size();
  std::size_t k = 0;
  for (; k + abreast <= n; k += abreast) {
    for (std::size_t j = 0; j < abreast; ++j) {
      const double part = std::abs(value[k + j]) * weight[k + j];
      most[j] = most[j] < part ? part : most[j];
      sum[j] += part;
    }
  }
  for (; k < n; ++k) {
    const double part = std::abs(value[k]) * weight[k];
    most[0] = most[0] < part ? part : most[0];
    sum[0] += part;
  }
  double all = 0.0;
  for (const double part : sum) all += part;
  return std::isfinite(all) ? *std::max_element(most.begin(), most.end()) : all;
}

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
  taken_.resize(n);
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

/// Newton's correction of y for (y - base)/(gamma h) = f(y), 0 = f(y), into delta_; returns its
/// weighted size. rates_ holds f(y).
double ImplicitStep::correction(std::span<const double> y, double gamma_h) {
  const double inverse = 1.0 / gamma_h;
  const std::size_t n = y.size();
  double* const delta = delta_.data();
  const double* const base = base_.data();
  const double* const mass = mass_.data();
  const double* const rates = rates_.data();
  for (std::size_t k = 0; k < n; ++k) delta[k] = rates[k] - mass[k] * inverse * (y[k] - base[k]);
  elimination_.solve(delta_);
  return largest(delta_, weight_);
}

bool ImplicitStep::solve_algebraic(std::span<double> y) {
  std::copy(y.begin(), y.end(), base_.begin());
  weigh(y);
  if (!jacobian_exists_) refresh_jacobian(y);
  contraction_ = 1.0;
  const bool is_solved = solve(y, no_time_s, algebraic_share);
  for (const int k : states_) y[static_cast<std::size_t>(k)] = base_[static_cast<std::size_t>(k)];
  if (!is_solved) modes_changed();
  return is_solved;
}

/// The stages so far foretell the next: the parabola or the line through the last of them. What
/// stands at the beginning of a transient foretells nothing; what follows a smooth step is foretold
/// for its first stage by that step's drift.
void ImplicitStep::guess(std::size_t stage, double h) {
  const bool is_smooth = tableau_->uses_first_slope;
  if (stage == 1 && is_smooth) {
    guess_by_drift(tableau_->c[1] * h);
    return;
  }
  const std::size_t first = is_smooth ? 0 : 1;
  switch (std::min<std::size_t>(stage - first, 3)) {
    case 0:
    case 1: stages_[stage] = stages_[stage - 1]; return;
    case 2: guess_by_parabola(stage, first, first, stage - 1); return;
    default: guess_by_parabola(stage, first, stage - 2, stage - 1); return;
  }
}

void ImplicitStep::guess_by_drift(double span_s) {
  double* const guessed = stages_[1].data();
  const double* const first = stages_[0].data();
  for (std::size_t k = 0; k < base_.size(); ++k) {
    const double move = span_s * drift_[k];
    guessed[k] = first[k] + (std::abs(move) < farthest_guess * scale_[k] ? move : 0.0);
  }
}

/// Through three earlier stages; through two where the first is the middle one too.
void ImplicitStep::guess_by_parabola(std::size_t stage, std::size_t first, std::size_t middle,
                                     std::size_t last) {
  const auto& c = tableau_->c;
  const double x = c[stage] - c[first];
  const double p = c[middle] - c[first];
  const double q = c[last] - c[first];
  const double of_middle = middle == first ? 0.0 : x * (x - q) / (p * (p - q));
  const double of_last = middle == first ? x / q : x * (x - p) / (q * (q - p));
  const double of_first = 1.0 - of_middle - of_last;
  const double* const from_first = stages_[first].data();
  const double* const from_middle = stages_[middle].data();
  const double* const from_last = stages_[last].data();
  double* const guessed = stages_[stage].data();
  for (std::size_t k = 0; k < base_.size(); ++k) {
    guessed[k] = of_first * from_first[k] + of_middle * from_middle[k] + of_last * from_last[k];
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

/// Newton's iteration with the matrix at hand while that converges quickly. Where it does not, with
/// a new one; and where even that sends it further away than it was, as a junction does that turns
/// from blocking to conducting, with half the correction, and half of that.
/// Source: the test for more or less of a correction is Deuflhard's natural one, Newton Methods for
/// Nonlinear Problems, Springer 2004, ch. 3 (from memory).
bool ImplicitStep::solve(std::span<double> y, double gamma_h, double allowed) {
  evaluate(y);
  if (!factor(gamma_h)) return false;
  double size = correction(y, gamma_h);
  double share = 1.0;
  bool is_fresh = false;  // the matrix is that of the iterate it corrects
  int matrices_left = most_new_matrices + more_new_matrices * failures_;
  int leaps = 0;
  for (int iteration = 0; iteration < most_iterations && std::isfinite(size); ++iteration) {
    take_correction(y, share);
    const bool is_whole = share == 1.0;
    if (is_whole && contraction_ < 1.0 && contraction_ / (1.0 - contraction_) * size < allowed) {
      return true;
    }
    evaluate(y);
    const double next = correction(y, gamma_h);
    if (is_whole && next < slow_contraction * size) {
      contraction_ = next / size;
      size = next;
      is_fresh = false;
      continue;
    }
    const double least_gain = is_fresh ? 0.25 * share : 0.0;
    if (!(next < (1.0 - least_gain) * size)) {
      give_back_correction(y, share);
      if (is_fresh && share > least_share) {
        share *= 0.5;
        continue;
      }
      if (is_fresh) {
        if (++leaps > most_leaps) return false;
        take_correction(y, 1.0);
      }
    }
    if (--matrices_left < 0) return false;
    refresh_jacobian(y);
    if (!factor(gamma_h)) return false;
    size = correction(y, gamma_h);
    is_fresh = true;
    share = std::min(1.0, 4.0 * share);
    contraction_ = slow_contraction;
  }
  return false;
}

void ImplicitStep::take_correction(std::span<double> y, double share) {
  std::swap(delta_, taken_);
  for (std::size_t k = 0; k < y.size(); ++k) y[k] += share * taken_[k];
}

void ImplicitStep::give_back_correction(std::span<double> y, double share) {
  for (std::size_t k = 0; k < y.size(); ++k) y[k] -= share * taken_[k];
  std::swap(delta_, taken_);
}

bool ImplicitStep::solve_stage(std::size_t stage, double h) {
  const double gamma_h = tableau_->gamma * h;
  begin_stage(stage, h);
  // What the last stage's convergence promises is trusted less for this one: Hairer and Wanner II,
  // IV.8 (from memory).
  contraction_ = std::pow(std::max(contraction_, least_contraction), 0.8);
  if (!solve(stages_[stage], gamma_h, newton_share)) return false;
  end_stage(stage, gamma_h);
  return true;
}

ImplicitStep::Attempt ImplicitStep::solve_stages(double h, const Ends& ends) {
  for (std::size_t stage = 1; stage < stages_.size(); ++stage) {
    if (!solve_stage(stage, h)) return {};
    const double share = tableau_->c[stage];
    if (ends(stages_[stage], share)) return {.converged = true, .ended_at = share};
  }
  return {.converged = true};
}

ImplicitStep::Attempt ImplicitStep::attempt(std::span<const double> y,
                                            std::span<const double> slope, double h, From from,
                                            const Ends& ends) {
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
  Attempt attempt = solve_stages(h, ends);
  const bool is_whole = attempt.ended_at == 0.0 || attempt.ended_at == 1.0;
  if (attempt.converged && is_whole) {
    attempt.error = judge(h, from);
    attempt.converged = std::isfinite(attempt.error);
  }
  if (attempt.converged) {
    failures_ = 0;
    return attempt;
  }
  ++failures_;
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
  if (from == From::Mild) worst *= mild_share;
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

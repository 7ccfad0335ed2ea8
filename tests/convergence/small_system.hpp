/// Systems of a few unknowns written as plain functions, for putting the stepper to the test
/// without any network.
#pragma once

#include <cmath>
#include <functional>
#include <limits>
#include <span>
#include <utility>
#include <vector>

#include "hybrid/system.hpp"

namespace tideover::tests {

class SmallSystem final : public hybrid::System {
 public:
  using Rates = std::function<void(std::span<const double> y, std::span<double> f)>;
  /// Row-wise, size * size.
  using Jacobian = std::function<void(std::span<const double> y, std::span<double> j)>;
  using Guard = std::function<double(double time_s, std::span<const double> y)>;
  using Deed = std::function<hybrid::Reacted(double time_s, std::span<double> y)>;
  struct Rule {
    Guard guard;
    Deed deed;
  };

  SmallSystem(std::vector<char> differential, Rates rates, Jacobian jacobian)
      : differential_(std::move(differential)),
        scale_(differential_.size(), 1.0),
        stride_(differential_.size(), std::numeric_limits<double>::infinity()),
        rates_(std::move(rates)),
        jacobian_(std::move(jacobian)),
        dense_(differential_.size() * differential_.size()) {
    numeric::PatternMaker maker(size());
    for (int r = 0; r < size(); ++r) {
      for (int c = 0; c < size(); ++c) maker.add(r, c);
    }
    pattern_ = std::move(maker).make();
  }

  std::vector<Rule> rules;
  /// What the clock does at `wake_s`; it must set the next one.
  double wake_s = std::numeric_limits<double>::infinity();
  Deed on_wake;

  [[nodiscard]] int size() const override { return static_cast<int>(differential_.size()); }
  [[nodiscard]] std::span<const char> differential() const override { return differential_; }
  [[nodiscard]] std::span<const double> scale() const override { return scale_; }
  [[nodiscard]] std::span<const double> stride() const override { return stride_; }
  void rates(std::span<const double> y, std::span<double> f) const override { rates_(y, f); }
  [[nodiscard]] const numeric::Pattern& pattern() const override { return pattern_; }
  void jacobian(std::span<const double> y, std::span<double> f,
                std::span<double> entries) const override {
    rates_(y, f);
    jacobian_(y, dense_);
    std::copy(dense_.begin(), dense_.end(), entries.begin());
  }
  [[nodiscard]] int guard_count() const override { return static_cast<int>(rules.size()); }
  void guards(double time_s, std::span<const double> y, std::span<double> margins) const override {
    for (std::size_t g = 0; g < rules.size(); ++g) margins[g] = rules[g].guard(time_s, y);
  }
  [[nodiscard]] double next_wake_s() const override { return wake_s; }
  hybrid::Reacted react(double time_s, std::span<double> y, int guard,
                        hybrid::Marks& marks) override {
    if (guard == hybrid::woken_by_clock) {
      marks.push_back({time_s, "clock", "wakes"});
      return on_wake(time_s, y);
    }
    marks.push_back({time_s, "rule " + std::to_string(guard), "acts"});
    return rules[static_cast<std::size_t>(guard)].deed(time_s, y);
  }

 private:
  std::vector<char> differential_;
  std::vector<double> scale_;
  std::vector<double> stride_;
  Rates rates_;
  Jacobian jacobian_;
  mutable std::vector<double> dense_;
  numeric::Pattern pattern_;
};

/// Kaps' problem: e y1' = -(1 + 2e) y1 + y2^2,  y2' = y1 - y2 (1 + y2), with y1 = exp(-2t),
/// y2 = exp(-t) for every e; for e = 0 the first line is algebraic, of index 1.
/// Source: Dekker and Verwer, Stability of Runge-Kutta Methods for Stiff Nonlinear Differential
/// Equations, 1984 (from memory).
[[nodiscard]] inline SmallSystem kaps_problem(double e) {
  const bool is_algebraic = e == 0.0;
  const double divided = is_algebraic ? 1.0 : e;
  return {{is_algebraic ? char{0} : char{1}, char{1}},
          [=](std::span<const double> y, std::span<double> f) {
            f[0] = (-(1.0 + 2.0 * e) * y[0] + y[1] * y[1]) / divided;
            f[1] = y[0] - y[1] * (1.0 + y[1]);
          },
          [=](std::span<const double> y, std::span<double> j) {
            j[0] = -(1.0 + 2.0 * e) / divided;
            j[1] = 2.0 * y[1] / divided;
            j[2] = 1.0;
            j[3] = -1.0 - 2.0 * y[1];
          }};
}

/// y' = rate.
[[nodiscard]] inline SmallSystem ramp(const double* rate) {
  return {{char{1}},
          [rate](std::span<const double>, std::span<double> f) { f[0] = *rate; },
          [](std::span<const double>, std::span<double> j) { j[0] = 0.0; }};
}

}  // namespace tideover::tests

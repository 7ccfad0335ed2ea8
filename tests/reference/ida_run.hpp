/// The independent solver that results are held against: SUNDIALS IDA (variable-order backward
/// differentiation) on the very equations, derivatives, guards and delays of a hybrid::System.
/// Stands where a hybrid::Stepper stands: same calls, same observer, same order of reactions.
/// Source: Hindmarsh and others, ACM Trans. Math. Softw. 31 (2005) 363; IDA's manual, 6.4.
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "hybrid/outcome.hpp"
#include "hybrid/stepper.hpp"
#include "hybrid/system.hpp"

namespace tideover::reference {

struct IdaSettings {
  /// Of each unknown; absolute tolerance is this times its scale().
  double relative_tolerance = 1e-8;
  int highest_order = 5;
  /// Call Observer::stepped for each step, with six stages read off IDA's own polynomial at Lobatto
  /// points, so that an observer integrates it exactly. Off: for measuring time.
  bool shows_steps = true;
  int most_reactions_at_once = 1000;
};

struct IdaStatistics {
  long steps = 0;
  long residual_evaluations = 0;
  long jacobian_evaluations = 0;
  long guard_evaluations = 0;
  long restarts = 0;
  long reactions = 0;
};

class IdaRun {
 public:
  /// `system` must outlive the run. y: start values; algebraic ones are solved for.
  /// Throws std::runtime_error, here and below, when IDA gives up: with its own words and the time.
  IdaRun(hybrid::System& system, const IdaSettings& settings, double time_s, std::vector<double> y);
  ~IdaRun();
  IdaRun(const IdaRun&) = delete;
  IdaRun& operator=(const IdaRun&) = delete;

  /// As hybrid::Stepper::advance; ends AtTime, ByObserver or Restless.
  hybrid::Outcome advance(double until_s, hybrid::Observer& observer);

  /// To be called after the system's modes were changed from outside at the present instant.
  void disturbed();

  [[nodiscard]] double time_s() const;
  [[nodiscard]] std::span<double> y();
  [[nodiscard]] IdaStatistics statistics() const;

 private:
  struct Solver;
  std::unique_ptr<Solver> solver_;
};

}  // namespace tideover::reference

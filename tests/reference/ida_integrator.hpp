/// IDA in the stepper's place for a whole run.
#pragma once

#include <vector>

#include "hybrid/integrator.hpp"
#include "reference/ida_run.hpp"

namespace tideover::reference {

class IdaIntegrator final : public hybrid::Integrator {
 public:
  IdaIntegrator(hybrid::System& system, double relative_tolerance, std::vector<double> y)
      : ida_(system, {.relative_tolerance = relative_tolerance}, 0.0, std::move(y)) {}

  hybrid::Outcome advance(double until_s, hybrid::Observer& observer) override {
    return ida_.advance(until_s, observer);
  }
  void disturbed() override { ida_.disturbed(); }
  [[nodiscard]] double time_s() const override { return ida_.time_s(); }
  [[nodiscard]] std::span<double> y() override { return ida_.y(); }
  /// Of the stepper's statistics IDA has only the steps.
  [[nodiscard]] const hybrid::Statistics& statistics() const override {
    statistics_.steps = ida_.statistics().steps;
    return statistics_;
  }

 private:
  IdaRun ida_;
  mutable hybrid::Statistics statistics_;
};

}  // namespace tideover::reference

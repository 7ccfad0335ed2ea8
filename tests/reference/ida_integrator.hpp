/// IDA in the stepper's place for a whole run.
#pragma once

#include <vector>

#include "hybrid/integrator.hpp"
#include "reference/ida_run.hpp"

namespace tideover::reference {

class IdaIntegrator final : public hybrid::Integrator {
 public:
  /// Goes no further than `stops_at_s`, and says then that it is restless.
  IdaIntegrator(hybrid::System& system, double relative_tolerance, double stops_at_s,
                std::vector<double> y)
      : ida_(system, {.relative_tolerance = relative_tolerance}, 0.0, std::move(y)),
        stops_at_s_(stops_at_s) {}

  hybrid::Outcome advance(double until_s, hybrid::Observer& observer) override {
    if (until_s <= stops_at_s_) return ida_.advance(until_s, observer);
    hybrid::Outcome outcome = ida_.advance(stops_at_s_, observer);
    if (outcome.ended == hybrid::Ended::AtTime)
      outcome = {hybrid::Ended::Restless, stops_at_s_, "here it is left"};
    return outcome;
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
  double stops_at_s_;
  mutable hybrid::Statistics statistics_;
};

}  // namespace tideover::reference

/// The current of a charge indicator.
#pragma once

#include <array>
#include <cstddef>

#include "network/law.hpp"
#include "numeric/smooth.hpp"

namespace tideover::part {

/// Ports: plus, minus. A steady current above a lowest voltage (resistive below it, the corner
/// rounded over a tenth), and a further current for every lamp whose threshold lies below the
/// voltage, each switched on over +-50 mV. All of its power is booked as lost.
struct IndicatorDraw {
  static constexpr int ports = 2;
  static constexpr int states = 0;
  static constexpr int most_steps = 10;
  struct Step {
    double above_v = 0.0;
    double current_a = 0.0;
  };

  double current_a = 0.0;
  double resistive_below_v = 3.0;
  std::array<Step, most_steps> steps{};
  int step_count = 0;

  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    constexpr double threshold_v = 0.05;
    const Real v = u[0] - u[1];
    const Real held = numeric::smooth_max(v, Real(resistive_below_v), 0.1 * resistive_below_v);
    flow[0] = current_a * v / held;
    for (std::size_t k = 0; k < static_cast<std::size_t>(step_count); ++k) {
      flow[0] = flow[0] +
                steps[k].current_a * numeric::smooth_step(Real(v - steps[k].above_v), threshold_v);
    }
    flow[1] = -flow[0];
  }
  void ledger(const double* u, const double*, network::Ledger& books) const {
    const double v = u[0] - u[1];
    books.lost_w += v * current_a_at(v);
  }
  /// [A] at `v` [V] between its terminals.
  [[nodiscard]] double current_a_at(double v) const {
    const double u[2] = {v, 0.0};
    double flow[2];
    equations(u, u, flow, flow);
    return flow[0];
  }
};

}  // namespace tideover::part

#include "cell/follow_test.hpp"

#include <algorithm>
#include <cmath>

namespace tideover::cell {

namespace {

constexpr double room_k = 298.15;

/// Rested after a gap: the pairs have died away, the branch is that of the charge moved unseen.
void rest_over_gap(const CellLaw& law, CellState& state, double unseen_c) {
  state.charge_share += unseen_c / law.capacity_c;
  state.quick_v = 0.0;
  state.slow_v = 0.0;
  if (unseen_c == 0.0) return;
  const double moved_share = std::fabs(unseen_c) / law.capacity_c;
  const double target = std::copysign(1.0, unseen_c);
  state.branch = target + (state.branch - target) * std::exp(-moved_share / law.turn_share);
}

}  // namespace

void follow(const CellLaw& law, const FitTest& test, const TestCourse& course,
            std::span<double> voltages_v, std::span<double> shares) {
  CellState state;
  state.charge_share = course.start_share;
  const FitSample& first = test.samples.front();
  const double air_k = first.ambient_k > 0.0       ? first.ambient_k
                       : first.temperature_k > 0.0 ? first.temperature_k
                                                   : room_k;
  state.temperature_k = air_k;
  for (std::size_t k = 0; k < test.samples.size(); ++k) {
    const FitSample& sample = test.samples[k];
    if (sample.is_behind_gap) rest_over_gap(law, state, sample.unseen_c);
    if (sample.temperature_k > 0.0) state.temperature_k = sample.temperature_k;
    if (sample.dt_s > 0.0) {
      const double driven_a = sample.mean_a == 0.0 ? 0.0 : sample.mean_a + course.offset_a;
      advance(law, state, driven_a, sample.dt_s, air_k);
      if (sample.temperature_k > 0.0) state.temperature_k = sample.temperature_k;
    }
    const double at_end_a = sample.current_a == 0.0 ? 0.0 : sample.current_a + course.offset_a;
    voltages_v[k] = terminal_v(law, state, at_end_a);
    if (!shares.empty()) shares[k] = state.charge_share;
  }
}

}  // namespace tideover::cell

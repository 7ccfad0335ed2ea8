#include "cell/run_down.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"

namespace tideover::cell {

namespace {

/// A limit is met to this, [s].
constexpr double instant_s = 1e-3;
/// A pulse shorter than this share of a second changes no temperature.
constexpr double empty_share = -0.2;  ///< below this there is no cell left to speak of

/// Current of a stretch; none if the cell cannot give the power.
std::optional<double> current_of(const CellLaw& law, const CellState& state,
                                 const LoadProfile& load, std::size_t k) {
  if (load.of == LoadProfile::Of::Current) return -load.amount[k];
  return current_at_power_a(law, state, -load.amount[k]);
}

class Run {
 public:
  explicit Run(const RunDownTask& task) : task_(task), state_(task.start) {}

  RunDown whole() {
    const LoadProfile& load = task_.load;
    note_start();
    for (std::size_t k = 0; k < load.size(); ++k) {
      if (!carry(k)) {
        note_end(k);
        return std::move(result_);
      }
      note_change(k);
    }
    result_.end = RunDown::End::LoadOver;
    result_.end_s = time_s_;
    return std::move(result_);
  }

 private:
  /// One stretch; false if the cell gave out in it.
  bool carry(std::size_t k) {
    const double until_s = task_.load.until_s[k];
    while (until_s - time_s_ > 1e-9) {
      const auto current_a = current_of(task_.law, state_, task_.load, k);
      if (!current_a) return gave_out(RunDown::End::Collapsed);
      const double h = std::min(longest_step_s(task_.law, *current_a), until_s - time_s_);
      const CellState before = state_;
      advance(task_.law, state_, *current_a, h, task_.ambient_k);
      if (!is_below(k, *current_a)) {
        count(before, *current_a, h);
        time_s_ += h;
        continue;
      }
      locate(before, k, *current_a, h);
      return gave_out(RunDown::End::LimitReached);
    }
    return true;
  }

  [[nodiscard]] bool is_below(std::size_t k, double current_a) const {
    if (current_a >= 0.0) return state_.charge_share < empty_share;
    const auto now_a = current_of(task_.law, state_, task_.load, k);
    return !now_a || terminal_v(task_.law, state_, *now_a) <= task_.until_v;
  }

  /// Bisects the step of `h` in which the limit was met.
  void locate(const CellState& before, std::size_t k, double current_a, double h) {
    double low = 0.0;
    double high = h;
    while (high - low > instant_s) {
      const double middle = 0.5 * (low + high);
      state_ = before;
      advance(task_.law, state_, current_a, middle, task_.ambient_k);
      (is_below(k, current_a) ? high : low) = middle;
    }
    state_ = before;
    advance(task_.law, state_, current_a, high, task_.ambient_k);
    count(before, current_a, high);
    time_s_ += high;
  }

  bool gave_out(RunDown::End how) {
    result_.end = how;
    result_.end_s = time_s_;
    return false;
  }

  void count(const CellState& before, double current_a, double h) {
    const double mean_v =
        0.5 * (terminal_v(task_.law, before, current_a) + terminal_v(task_.law, state_, current_a));
    result_.taken_c -= current_a * h;
    result_.taken_j -= current_a * mean_v * h;
  }

  [[nodiscard]] RunPoint point_at(double current_a) const {
    return {time_s_, terminal_v(task_.law, state_, current_a), current_a, state_.temperature_k,
            state_.charge_share};
  }

  void note_start() { result_.trace.push_back(point_at(0.0)); }

  /// Between this stretch's load and the next one's.
  void note_change(std::size_t k) {
    const std::size_t next = std::min(k + 1, task_.load.size() - 1);
    const double left_a = current_of(task_.law, state_, task_.load, k).value_or(0.0);
    const double right_a = current_of(task_.law, state_, task_.load, next).value_or(left_a);
    result_.trace.push_back(point_at(0.5 * (left_a + right_a)));
  }

  void note_end(std::size_t k) {
    const auto current_a = current_of(task_.law, state_, task_.load, k);
    RunPoint point = point_at(current_a.value_or(0.0));
    point.voltage_v = current_a ? std::min(point.voltage_v, task_.until_v) : 0.0;
    result_.trace.push_back(point);
  }

  const RunDownTask& task_;
  CellState state_;
  double time_s_ = 0.0;
  RunDown result_;
};

}  // namespace

RunDown run_down(const RunDownTask& task) {
  TIDEOVER_EXPECT(task.load.size() == task.load.amount.size(), "an amount for every stretch");
  return Run(task).whole();
}

Charging charge_up(const ChargeTask& task) {
  TIDEOVER_EXPECT(task.current_a > 0.0, "a charging current is positive");
  Charging result;
  CellState state = task.start;
  double held_s = 0.0;
  bool is_holding = false;
  while (held_s < task.hold_s && state.charge_share < 1.2) {
    double current_a = task.current_a;
    if (is_holding) {
      current_a = std::clamp(current_at_voltage_a(task.law, state, task.to_v), 0.0, task.current_a);
    }
    const double h = std::min(longest_step_s(task.law, task.current_a), 1.0);
    advance(task.law, state, current_a, h, task.ambient_k);
    result.whole_c += current_a * h;
    result.hottest_k = std::max(result.hottest_k, state.temperature_k);
    if (is_holding) {
      held_s += h;
      continue;
    }
    result.constant_current_s += h;
    result.constant_current_c += current_a * h;
    is_holding = terminal_v(task.law, state, task.current_a) >= task.to_v;
  }
  return result;
}

RunDown discharge_at(const CellLaw& law, double current_a, double until_v, double ambient_k) {
  RunDownTask task;
  task.law = law;
  task.until_v = until_v;
  task.ambient_k = ambient_k;
  task.load.of = LoadProfile::Of::Current;
  task.load.until_s = {3.0 * law.capacity_c / current_a};
  task.load.amount = {current_a};
  task.start.temperature_k = ambient_k;
  return run_down(task);
}

}  // namespace tideover::cell

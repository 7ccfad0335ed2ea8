#include "part/protection_board/board_trips.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace tideover::part {

using network::Fact;
using network::View;

namespace {

/// A comparator's own hysteresis: common practice, no source.
constexpr double voltage_noise_v = 0.005;
constexpr double current_noise_share = 0.02;

TripTimes times(const ProtectionBoard& board, double delay_s) {
  return {.delay_s = delay_s, .release_delay_s = board.release_delay.si()};
}

TripTimes times(const ProtectionBoard& board, const CurrentLimit& limit) {
  if (board.fault_released_by != FaultRelease::Waiting) return times(board, limit.delay_s);
  return {.delay_s = limit.delay_s, .release_delay_s = board.fault_wait.si()};
}

}  // namespace

EmptyTrip::EmptyTrip(const ProtectionBoard& board, BoardGates gates, unsigned bit)
    : Trip(std::move(gates), Direction::Discharge, bit,
           times(board, board.under_voltage_delay.si())),
      limit_v_(board.under_voltage.si()),
      release_v_(board.under_voltage_release.si()),
      released_by_(board.under_voltage_released_by) {}

double EmptyTrip::over(const View& view) const { return limit_v_ - gates().lowest(view).voltage_v; }

double EmptyTrip::may_release(const View& view) const {
  const double lowest_v = gates().lowest(view).voltage_v;
  const double path_v = gates().path_v(view);
  // While a charger lifts the groups through the body diode, the limit itself is enough.
  const double on_charger = std::min(-path_v - felt_v, lowest_v - limit_v_ - 2.0 * voltage_noise_v);
  const double recovered = lowest_v - release_v_;
  switch (released_by_) {
    case UnderVoltageRelease::Voltage: return std::max(on_charger, recovered);
    case UnderVoltageRelease::Charger: return on_charger;
    case UnderVoltageRelease::LoadRemoval:
      return std::max(on_charger, std::min(recovered, load_gone_v - path_v));
  }
  return on_charger;
}

double EmptyTrip::over_hysteresis() const { return voltage_noise_v; }
double EmptyTrip::release_hysteresis() const { return voltage_noise_v; }
std::string EmptyTrip::why(const View& view) const {
  return fmt::format("group {} is empty", gates().lowest(view).number);
}

FullTrip::FullTrip(const ProtectionBoard& board, BoardGates gates, unsigned bit)
    : Trip(std::move(gates), Direction::Charge, bit, times(board, board.over_voltage_delay.si())),
      limit_v_(board.over_voltage.si()),
      release_v_(board.over_voltage_release.si()),
      released_by_(board.over_voltage_released_by) {}

double FullTrip::over(const View& view) const { return gates().highest(view).voltage_v - limit_v_; }

double FullTrip::may_release(const View& view) const {
  const double highest_v = gates().highest(view).voltage_v;
  const double drained = release_v_ - highest_v;
  if (released_by_ == OverVoltageRelease::Voltage) return drained;
  const double on_load =
      std::min(gates().path_v(view) - felt_v, limit_v_ - 2.0 * voltage_noise_v - highest_v);
  return std::max(drained, on_load);
}

double FullTrip::over_hysteresis() const { return voltage_noise_v; }
double FullTrip::release_hysteresis() const { return voltage_noise_v; }
std::string FullTrip::why(const View& view) const {
  return fmt::format("group {} is full", gates().highest(view).number);
}
bool FullTrip::is(Fact fact) const { return fact == Fact::Full && has_tripped(); }

CurrentTrip::CurrentTrip(const ProtectionBoard& board, BoardGates gates, unsigned bit,
                         CurrentLimit limit)
    : Trip(std::move(gates), limit.direction, bit, times(board, limit)),
      limit_(std::move(limit)),
      released_by_(board.fault_released_by) {}

double CurrentTrip::over(const View& view) const {
  const double discharge_a = gates().current_a(view);
  return (limit_.direction == Direction::Discharge ? discharge_a : -discharge_a) - limit_.limit_a;
}

double CurrentTrip::may_release(const View& view) const {
  if (released_by_ == FaultRelease::Waiting) return 1.0;
  const double path_v = gates().path_v(view);
  // The charger that gave too much must go.
  if (limit_.direction == Direction::Charge) return path_v + felt_v;
  return released_by_ == FaultRelease::Charger ? -path_v - felt_v : load_gone_v - path_v;
}

double CurrentTrip::over_hysteresis() const { return current_noise_share * limit_.limit_a; }
double CurrentTrip::release_hysteresis() const { return voltage_noise_v; }
std::string CurrentTrip::why(const View& /*view*/) const { return limit_.why; }

TemperatureTrip::TemperatureTrip(const ProtectionBoard& board, BoardGates gates, unsigned bit,
                                 Direction direction, network::NodeId felt)
    : Trip(std::move(gates), direction, bit,
           {.delay_s = board.temperature_delay.si(),
            .release_delay_s = board.temperature_delay.si()}),
      felt_(felt),
      hysteresis_k_(board.temperature_hysteresis.si()) {
  const auto& window =
      direction == Direction::Discharge ? board.discharge_window : board.charge_window;
  low_k_ = window.low().si();
  high_k_ = window.high().si();
}

double TemperatureTrip::over(const View& view) const {
  const double felt_k = view.potential(felt_);
  return std::max(low_k_ - felt_k, felt_k - high_k_);
}

double TemperatureTrip::may_release(const View& view) const { return -over(view) - hysteresis_k_; }

std::string TemperatureTrip::why(const View& view) const {
  return view.potential(felt_) < low_k_ ? "too cold" : "too hot";
}

}  // namespace tideover::part

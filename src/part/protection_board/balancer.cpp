#include "part/protection_board/balancer.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace tideover::part {

using network::Reaction;
using network::View;

namespace {

/// Charge current at which a board takes itself to be charged, and at which no longer; common
/// practice, no source.
constexpr double charging_a = 0.05;
constexpr double not_charging_a = 0.02;

}  // namespace

Balancer::Balancer(const ProtectionBoard& board, BoardGates gates,
                   std::vector<network::Handle<WarmResistance>> bleeds)
    : gates_(std::move(gates)),
      bleeds_(std::move(bleeds)),
      is_on_(bleeds_.size(), 0),
      start_v_(board.balance_start.si()),
      hysteresis_v_(board.balance_hysteresis.si()),
      conductance_s_(1.0 / board.balance_resistance.si()),
      needs_charge_(board.balances == Balances::WhileCharging) {}

void Balancer::conditions(const View& view, std::span<double> margins) const {
  const double charge_a = -gates_.current_a(view);
  for (std::size_t k = 0; k < is_on_.size(); ++k) {
    const double above_v = gates_.group_v(view, static_cast<int>(k) + 1) - start_v_;
    if (is_on_[k] != 0) {
      margins[k] = -above_v - hysteresis_v_;
      if (needs_charge_) margins[k] = std::max(margins[k], not_charging_a - charge_a);
    } else {
      margins[k] = above_v;
      if (needs_charge_) margins[k] = std::min(margins[k], charge_a - charging_a);
    }
  }
}

void Balancer::react(Reaction& reaction, int index) {
  const auto k = static_cast<std::size_t>(index);
  is_on_[k] = is_on_[k] != 0 ? 0 : 1;
  const bool is_on = is_on_[k] != 0;
  reaction.network().law(bleeds_[k]).conductance_s = is_on ? conductance_s_ : open_conductance_s;
  reaction.mark(gates_.part,
                fmt::format("{} group {}", is_on ? "bleeds" : "stops bleeding", index + 1));
  reaction.allow_long_step();
}

}  // namespace tideover::part

/// Bleeding of the fullest groups.
#pragma once

#include <vector>

#include "part/protection_board/board_gates.hpp"
#include "part/protection_board/protection_board.hpp"
#include "part/resistance.hpp"

namespace tideover::part {

/// A resistor across each group, switched on above a start voltage and off a hysteresis below it;
/// with Balances::WhileCharging only while charge flows in. A group that never reaches the start
/// voltage is never balanced.
class Balancer final : public network::Behaviour {
 public:
  Balancer(const ProtectionBoard& board, BoardGates gates,
           std::vector<network::Handle<WarmResistance>> bleeds);
  [[nodiscard]] std::unique_ptr<network::Behaviour> clone() const override {
    return std::make_unique<Balancer>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return gates_.part; }
  [[nodiscard]] int condition_count() const override { return gates_.group_count(); }
  void conditions(const network::View& view, std::span<double> margins) const override;
  void react(network::Reaction& reaction, int index) override;

 private:
  BoardGates gates_;
  std::vector<network::Handle<WarmResistance>> bleeds_;
  std::vector<char> is_on_;
  double start_v_;
  double hysteresis_v_;
  double conductance_s_;
  bool needs_charge_;
};

}  // namespace tideover::part

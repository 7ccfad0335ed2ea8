/// The two MOSFETs of a board and the reasons that keep them off.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "network/behaviour.hpp"
#include "network/network.hpp"
#include "part/protection_board/board_path.hpp"

namespace tideover::part {

enum class Direction { Discharge, Charge };

/// What every watch of a board sees and acts on. A value; each watch has a copy.
struct BoardGates {
  std::string part{};
  network::Handle<BoardPath> path{};
  network::Handle<BoardDrain> drain{};
  network::NodeId p_minus{};
  network::NodeId shunt{};  ///< between the MOSFETs and the shunt, whose other end is b_minus
  double shunt_ohm = 0.002;
  std::vector<network::NodeId> points{};  ///< b_minus, the taps, b_plus: bounds of the groups
  double drain_a = 0.0;
  double drain_when_cut_a = 0.0;
  bool discharge_stuck_on = false;  ///< shorted: conducts whatever its gate says
  bool charge_stuck_on = false;

  struct Group {
    int number;  ///< from 1, at the minus end
    double voltage_v;
  };
  [[nodiscard]] int group_count() const { return static_cast<int>(points.size()) - 1; }
  [[nodiscard]] double group_v(const network::View& view, int number) const;
  [[nodiscard]] Group lowest(const network::View& view) const;
  [[nodiscard]] Group highest(const network::View& view) const;
  /// u(p_minus) - u(b_minus): above zero a load pulls, below zero a charger pushes.
  [[nodiscard]] double path_v(const network::View& view) const;

  /// Through the shunt [A]; positive discharges the pack.
  [[nodiscard]] double current_a(const network::View& view) const;

  /// No gate turns that MOSFET off any more.
  [[nodiscard]] bool is_stuck_on(Direction direction) const {
    return direction == Direction::Discharge ? discharge_stuck_on : charge_stuck_on;
  }

  /// Keeps the MOSFET off for reason `bit`; the first reason is put into the record.
  void block(network::Reaction& reaction, Direction direction, unsigned bit,
             std::string_view why) const;
  /// Takes reason `bit` away; the last one gone is put into the record.
  void release(network::Reaction& reaction, Direction direction, unsigned bit) const;
};

}  // namespace tideover::part

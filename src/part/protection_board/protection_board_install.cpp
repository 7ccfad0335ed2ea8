#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "part/installer.hpp"
#include "part/protection_board/balancer.hpp"
#include "part/protection_board/board_trips.hpp"
#include "part/protection_board/protection_board.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;
using network::NodeId;

namespace {

/// The shunt's part of the path resistance.
constexpr double shunt_share = 0.2;

/// One bit for each reason that may keep a MOSFET off.
enum Reason : unsigned {
  group_empty = 1U << 0U,
  group_full = 1U << 1U,
  discharge_over = 1U << 2U,
  charge_over = 1U << 3U,
  short_circuit = 1U << 4U,
  discharge_heat = 1U << 5U,
  charge_heat = 1U << 6U,
  stuck_off = 1U << 7U,
};

BoardGates lay_path(Installer& installer, const ProtectionBoard& board) {
  BoardGates gates{.part = board.name};
  gates.p_minus = installer.node("p_minus");
  gates.points.push_back(installer.node("b_minus"));
  for (int k = 1; k < board.series; ++k) {
    // An input without its lead is pulled to the one below it.
    gates.points.push_back(k == board.tap_off ? gates.points.back()
                                              : installer.node(fmt::format("tap{}", k)));
  }
  gates.points.push_back(installer.node("b_plus"));
  gates.shunt = installer.inner_node("shunt");
  gates.shunt_ohm = shunt_share * board.path_resistance.si();
  gates.drain_a = board.drain.si();
  gates.drain_when_cut_a = board.drain_when_cut.si();
  gates.discharge_stuck_on = board.discharge_stuck_on;
  gates.charge_stuck_on = board.charge_stuck_on;
  const NodeId minus = gates.points.front();
  BoardPath path{.on_ohm = (1.0 - shunt_share) * board.path_resistance.si(),
                 .saturation_a = BoardPath::saturation_for(board.body_diode.si()),
                 .discharge_blocks = board.discharge_stuck_off ? stuck_off : 0U,
                 .charge_blocks = board.charge_stuck_off ? stuck_off : 0U};
  if (board.under_voltage_released_by == UnderVoltageRelease::LoadRemoval ||
      board.fault_released_by == FaultRelease::LoadRemoval) {
    path.sense_s = 1.0 / board.load_sense.si();
  }
  gates.path = installer.add(path, {gates.p_minus, gates.shunt, installer.body()}, "path");
  installer.add(WarmResistance{1.0 / gates.shunt_ohm}, {gates.shunt, minus, installer.body()},
                "shunt");
  gates.drain = installer.add(BoardDrain{gates.drain_a}, {gates.points.back(), minus}, "own drain");
  return gates;
}

void add_trips(Installer& installer, const ProtectionBoard& board, const BoardGates& gates) {
  installer.add_behaviour(
      std::make_unique<CurrentTrip>(board, gates, short_circuit,
                                    CurrentLimit{Direction::Discharge, board.short_circuit.si(),
                                                 board.short_circuit_delay.si(), "short circuit"}));
  installer.add_behaviour(std::make_unique<CurrentTrip>(
      board, gates, discharge_over,
      CurrentLimit{Direction::Discharge, board.discharge_over_current.si(),
                   board.discharge_over_current_delay.si(), "over-current"}));
  installer.add_behaviour(std::make_unique<CurrentTrip>(
      board, gates, charge_over,
      CurrentLimit{Direction::Charge, board.charge_over_current.si(),
                   board.charge_over_current_delay.si(), "over-current"}));
  installer.add_behaviour(std::make_unique<EmptyTrip>(board, gates, group_empty));
  installer.add_behaviour(std::make_unique<FullTrip>(board, gates, group_full));
  if (!board.has_temperature_sensor) return;
  const auto elsewhere =
      board.sensor_on.empty() ? std::nullopt : installer.body_of(board.sensor_on);
  const NodeId felt = elsewhere ? *elsewhere : installer.body();
  installer.add_behaviour(
      std::make_unique<TemperatureTrip>(board, gates, discharge_heat, Direction::Discharge, felt));
  installer.add_behaviour(
      std::make_unique<TemperatureTrip>(board, gates, charge_heat, Direction::Charge, felt));
}

void add_bleeds(Installer& installer, const ProtectionBoard& board, const BoardGates& gates) {
  if (board.balances == Balances::Never) return;
  std::vector<network::Handle<WarmResistance>> bleeds;
  for (std::size_t k = 1; k < gates.points.size(); ++k) {
    // Between an input without its lead and the one below it this bleeds nothing.
    bleeds.push_back(installer.add(WarmResistance{},
                                   {gates.points[k], gates.points[k - 1], installer.body()},
                                   fmt::format("bleed {}", k)));
  }
  installer.add_behaviour(std::make_unique<Balancer>(board, gates, std::move(bleeds)));
}

}  // namespace

void ProtectionBoard::install(Installer& installer) const {
  const BoardGates gates = lay_path(installer, *this);
  if (!is_blind) add_trips(installer, *this, gates);
  add_bleeds(installer, *this, gates);
  const auto current = installer.watch("discharge current", Ampere::dimension,
                                       [gates](const network::Network&, const network::View& view) {
                                         return gates.current_a(view);
                                       });
  installer.rate("continuous discharge current", current, rated.si(), true, 1.0_s, "as stated");
  installer.rate("continuous charge current", current, -rated.si(), false, 1.0_s, "as stated");
  // Taps in the wrong order show one group of twice the voltage and one the wrong way round.
  const auto least = installer.watch(
      "lowest group voltage it sees", Volt::dimension,
      [gates](const network::Network&, const network::View& view) {
        double least_v = HUGE_VAL;
        for (std::size_t k = 1; k < gates.points.size(); ++k) {
          least_v = std::min(least_v, view.between(gates.points[k], gates.points[k - 1]));
        }
        return least_v;
      });
  installer.watch_polarity(least);
  const auto heat = installer.watch_temperature("temperature", installer.body());
  installer.rate("highest temperature", heat, highest_temperature.si(), true, 10.0_s, "as stated");
}

}  // namespace tideover::part

#include "part/protection_board/board_gates.hpp"

#include <fmt/format.h>

namespace tideover::part {

using network::Reaction;
using network::View;

namespace {

unsigned& blocks_of(BoardPath& path, Direction direction) {
  return direction == Direction::Discharge ? path.discharge_blocks : path.charge_blocks;
}

}  // namespace

double BoardGates::group_v(const View& view, int number) const {
  const auto k = static_cast<std::size_t>(number);
  return view.between(points[k], points[k - 1]);
}

BoardGates::Group BoardGates::lowest(const View& view) const {
  Group found{1, group_v(view, 1)};
  for (int k = 2; k <= group_count(); ++k) {
    const double v = group_v(view, k);
    if (v < found.voltage_v) found = {k, v};
  }
  return found;
}

BoardGates::Group BoardGates::highest(const View& view) const {
  Group found{1, group_v(view, 1)};
  for (int k = 2; k <= group_count(); ++k) {
    const double v = group_v(view, k);
    if (v > found.voltage_v) found = {k, v};
  }
  return found;
}

double BoardGates::path_v(const View& view) const { return view.between(p_minus, points.front()); }

double BoardGates::current_a(const View& view) const {
  return view.between(shunt, points.front()) / shunt_ohm;
}

void BoardGates::block(Reaction& reaction, Direction direction, unsigned bit,
                       std::string_view why) const {
  if (is_stuck_on(direction)) return;
  const bool is_discharge = direction == Direction::Discharge;
  unsigned& blocks = blocks_of(reaction.network().law(path), direction);
  if (blocks == 0) {
    reaction.mark(part,
                  fmt::format("cuts the {} path: {}", is_discharge ? "discharge" : "charge", why),
                  is_discharge ? network::Effect::Stops : network::Effect::Other);
  }
  blocks |= bit;
  if (is_discharge) reaction.network().law(drain).drain_a = drain_when_cut_a;
}

void BoardGates::release(Reaction& reaction, Direction direction, unsigned bit) const {
  if (is_stuck_on(direction)) return;
  const bool is_discharge = direction == Direction::Discharge;
  unsigned& blocks = blocks_of(reaction.network().law(path), direction);
  blocks &= ~bit;
  if (blocks != 0) return;
  reaction.mark(part, fmt::format("lets the pack {} again", is_discharge ? "discharge" : "charge"),
                is_discharge ? network::Effect::Resumes : network::Effect::Other);
  if (is_discharge) reaction.network().law(drain).drain_a = drain_a;
}

}  // namespace tideover::part

#include "part/pack/pack.hpp"

#include <cmath>
#include <utility>

#include <fmt/format.h>

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

const Description& GroupState::describe() {
  static const Description description =
      Describe<GroupState>("group", "One group of parallel cells, counted from the minus end.")
          .value("capacity", &GroupState::capacity, {0.01_Ah, 10000.0_Ah},
                 "capacity of the whole group when new", "as the cell's row says")
          .value("charge", &GroupState::charge, {0.0_percent, 100.0_percent},
                 "its charge at the start", "as the pack's")
          .done();
  return description;
}

const Description& Pack::describe() {
  static const Description description =
      Describe<Pack>("pack", "Battery cells in series groups of parallel cells.")
          .record("cell", &Pack::cell, "cell", "the cell it is made of")
          .required()
          .count("series", &Pack::series, 1, 20, "groups in series", "assumed")
          .required()
          .count("parallel", &Pack::parallel, 1, 100, "cells side by side in each group", "one")
          .records("groups", &Pack::groups, 0, 20, "what is known of each group, from minus up")
          .value("charge", &Pack::charge, {0.0_percent, 100.0_percent}, "charge at the start",
                 "full, as after days on the mains")
          .value("age", &Pack::age, {0.0_percent, 100.0_percent},
                 "how worn it is: 0 % as new, 100 % at its end of life", "new")
          .value("link_resistance", &Pack::link_resistance, {0.0_Ohm, 1.0_Ohm},
                 "of the strips and welds of each group", "typical of nickel strip, from memory")
          .value("holder_heat", &Pack::body_heat, {0.1_J_per_K, 100000.0_J_per_K},
                 "heat that holder and wrapping take up per kelvin", "20 g of plastic, assumed")
          .with(fields_of_every_part())
          .done();
  return description;
}

std::unique_ptr<Part> Pack::clone() const { return std::make_unique<Pack>(*this); }

std::vector<Terminal> Pack::terminals() const {
  std::vector<Terminal> all{{"plus", Role::Plus, true, "top of the pack"},
                            {"minus", Role::Minus, true, "bottom of the pack"}};
  for (int k = 1; k < series; ++k) {
    all.push_back({terminal_above(k), Role::Tap, false,
                   fmt::format("between group {} and group {}", k, k + 1)});
  }
  return all;
}

std::string Pack::terminal_below(int number) const {
  return number == 1 ? "minus" : fmt::format("tap{}", number - 1);
}
std::string Pack::terminal_above(int number) const {
  return number == series ? "plus" : fmt::format("tap{}", number);
}

std::vector<TestPoint> Pack::test_points() const {
  std::vector<TestPoint> all{{"plus", "minus", "pack voltage"}};
  for (int k = 1; k <= series && series > 1; ++k) {
    all.push_back({terminal_above(k), terminal_below(k), fmt::format("voltage of group {}", k)});
  }
  return all;
}

std::vector<std::string> Pack::contradictions() const {
  std::vector<std::string> wrong;
  if (!groups.empty() && std::cmp_not_equal(groups.size(), series)) {
    wrong.push_back(
        fmt::format("groups: says {}, but the pack has {} in series", groups.size(), series));
  }
  if (cell.charge_to.si() * series > 60.0) {
    wrong.push_back(fmt::format("series: {} groups reach {:.1f} V when full; stay below 60 V",
                                series, cell.charge_to.si() * series));
  }
  for (std::string& sentence : cell.contradictions()) {
    wrong.push_back("cell: " + std::move(sentence));
  }
  return wrong;
}

std::unique_ptr<Pack> Pack::at_end_of_life() const {
  auto worn = std::make_unique<Pack>(*this);
  worn->age.nominal_si = worn->age.low_si = worn->age.high_si = 1.0;
  return worn;
}

Coulomb Pack::group_capacity(int number) const {
  const double left = 1.0 - age.si() * (1.0 - cell.end_of_life_capacity.si());
  const double live = live_cells(number);
  if (!groups.empty()) {
    const GroupState& group = groups[static_cast<std::size_t>(number - 1)];
    if (group.capacity.given) return group.capacity.nominal() * (left * live / parallel);
  }
  return cell.capacity.nominal() * (live * left);
}

int Pack::live_cells(int number) const {
  if (groups.empty()) return parallel;
  return parallel - groups[static_cast<std::size_t>(number - 1)].open_cells;
}

double Pack::leak_factor(int number) const {
  return groups.empty() ? 1.0 : groups[static_cast<std::size_t>(number - 1)].leak_factor;
}

Ratio Pack::start_charge(int number) const {
  if (groups.empty()) return charge.nominal();
  const GroupState& group = groups[static_cast<std::size_t>(number - 1)];
  return group.charge.given ? group.charge.nominal() : charge.nominal();
}

double Pack::resistance_factor() const {
  return 1.0 + age.si() * (cell.end_of_life_resistance.si() - 1.0);
}

JoulePerKelvin Pack::heat_capacity() const {
  return cell.heat_capacity.nominal() * static_cast<double>(series * parallel);
}

JoulePerKelvin Pack::heat_of_body() const { return heat_capacity() + body_heat.nominal(); }

KelvinPerWatt Pack::to_air() const {
  return cell.to_air.nominal() / std::pow(static_cast<double>(series * parallel), 2.0 / 3.0);
}

}  // namespace tideover::part

#include "part/terminal_block/terminal_block.hpp"

#include <algorithm>
#include <cmath>

#include "part/installer.hpp"
#include "part/resistance.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

const Description& TerminalBlock::describe() {
  static const Description description =
      Describe<TerminalBlock>("terminal-block", "Joins several wires on one bar.")
          .count("ways", &TerminalBlock::ways, 2, 48, "wires it takes", "a common size")
          .value("resistance", &TerminalBlock::resistance, {10e-6_Ohm, 10_Ohm},
                 "from the wire in one clamp to the bar",
                 "typical of clean screw and spring clamps, from memory")
          .value("rated", &TerminalBlock::rated, {1_mA, 500_A}, "current of one clamp",
                 "typical of clamps for 1.5 mm2, from memory")
          .with(fields_of_every_part())
          .done();
  return description;
}

std::unique_ptr<Part> TerminalBlock::clone() const {
  return std::make_unique<TerminalBlock>(*this);
}

std::vector<Terminal> TerminalBlock::terminals() const {
  std::vector<Terminal> all;
  for (int way = 1; way <= ways; ++way) {
    const std::string number = std::to_string(way);
    all.push_back({"w" + number, Role::Contact, false, "clamp " + number + " of " + name});
  }
  return all;
}

std::vector<FailureMode> TerminalBlock::failure_modes() const {
  // One a clamp, because what hangs on it decides what follows. A wire that has slipped out is no
  // mode of the block: its lead, broken or come off, is the same fault.
  std::vector<FailureMode> modes;
  for (int way = 1; way <= ways; ++way) {
    const std::string number = std::to_string(way);
    modes.push_back({"clamp " + number + " loose",
                     "its screw has come loose: it makes a poor contact and gets hot",
                     {resistive("w" + number, poor_contact)}});
  }
  return modes;
}

std::vector<TestPoint> TerminalBlock::test_points() const {
  return {{"w1", "w2", "drop over two clamps, millivolts; resistance with the power off"}};
}

void TerminalBlock::install(Installer& installer) const {
  const auto bar = installer.inner_node("bar");
  const double clamp_s = 1.0 / std::max(resistance.si(), least_resistance_ohm);
  std::vector<std::pair<network::Handle<Resistance>, network::NodeId>> clamps;
  for (const Terminal& terminal : terminals()) {
    const auto end = installer.node(terminal.name);
    clamps.emplace_back(installer.add(Resistance{clamp_s}, {end, bar}, terminal.name), end);
  }
  const std::size_t current = installer.watch(
      "current of the busiest clamp", Ampere::dimension,
      [clamps, bar](const network::Network& net, const network::View& view) {
        double largest_a = 0.0;
        for (const auto& [clamp, end] : clamps) {
          const double current_a = net.law(clamp).conductance_s * view.between(end, bar);
          largest_a = std::max(largest_a, std::abs(current_a));
        }
        return largest_a;
      });
  installer.rate("clamp current", current, rated.si(), true, 60_s,
                 rated.given ? "as stated" : "typical, from memory");
}

}  // namespace tideover::part

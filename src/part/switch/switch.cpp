#include "part/switch/switch.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "part/installer.hpp"
#include "part/switch/switch_position.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

const Description& Switch::describe() {
  static const Description description =
      Describe<Switch>("switch", "Joins a common terminal to one of its ways by hand.")
          .count("poles", &Switch::poles, 1, 4, "ganged poles that move together", "the usual one")
          .count("ways", &Switch::ways, 1, 6, "ways that each pole can be joined to",
                 "an on-off switch")
          .flag("has_off", &Switch::has_off, "whether position 0 joins nothing", "an on-off switch")
          .count("start", &Switch::start, 0, 6, "position before the run; 0 is off",
                 "on, as it is left in use")
          .value("resistance", &Switch::resistance, {10e-6_Ohm, 10_Ohm}, "of one closed contact",
                 "typical of small power switches, from memory")
          .value("rated", &Switch::rated, {1_mA, 200_A},
                 "current its contacts may carry and break at DC; an AC rating says less",
                 "typical of small rocker switches at 24 V DC, from memory")
          .with(fields_of_every_part())
          .done();
  return description;
}

std::unique_ptr<Part> Switch::clone() const { return std::make_unique<Switch>(*this); }

std::string Switch::terminal(std::string_view which, int pole) const {
  std::string made(which);
  if (poles > 1) made += std::string("_") + static_cast<char>('a' + pole);
  return made;
}

std::vector<Terminal> Switch::terminals() const {
  std::vector<Terminal> all;
  for (int pole = 0; pole < poles; ++pole) {
    all.push_back(
        {terminal("common", pole), Role::Contact, pole == 0, "common contact of " + name});
    for (int way = 1; way <= ways; ++way) {
      const std::string number = std::to_string(way);
      all.push_back({terminal("way" + number, pole), Role::Contact, false,
                     "contact " + number + " of " + name});
    }
  }
  return all;
}

std::vector<FailureMode> Switch::failure_modes() const {
  std::vector<FailureMode> modes;
  for (int pole = 0; pole < poles; ++pole) {
    const std::string common = terminal("common", pole);
    const std::string of_pole =
        poles > 1 ? std::string(" of pole ") + static_cast<char>('a' + pole) : std::string();
    modes.push_back(
        {"contact open" + of_pole, "it joins nothing in any position", {opened(common)}});
    modes.push_back({"contact burnt" + of_pole,
                     "its closed contact is a poor one and gets hot",
                     {resistive(common, poor_contact)}});
    for (int way = 1; way <= ways; ++way) {
      const std::string number = std::to_string(way);
      modes.push_back({fmt::format("way {} welded{}", number, of_pole),
                       "it stays joined whatever the handle says",
                       {bridged(common, terminal("way" + number, pole), resistance.nominal())}});
    }
  }
  modes.push_back(
      {"handle stuck", "it stays in the position it has", {}, altering<Switch>([](Switch& one) {
         one.is_stuck = true;
       })});
  return modes;
}

std::vector<TestPoint> Switch::test_points() const {
  return {{terminal("common", 0), terminal("way1", 0),
           "drop over the closed contact, millivolts; resistance with the power off"}};
}

std::vector<std::string> Switch::contradictions() const {
  std::vector<std::string> found;
  if (start > ways) found.emplace_back("start: there is no such position; it has fewer ways");
  if (start == 0 && !has_off) found.emplace_back("start: position 0 is off, and has_off is false");
  if (ways == 1 && !has_off) found.emplace_back("has_off: a single way needs an off position");
  return found;
}

void Switch::install(Installer& installer) const {
  const double closed_s = 1.0 / std::max(resistance.si(), least_resistance_ohm);
  std::vector<std::vector<network::Handle<Resistance>>> contacts;
  for (int pole = 0; pole < poles; ++pole) {
    const auto common = installer.node(terminal("common", pole));
    std::vector<std::pair<network::Handle<Resistance>, network::NodeId>> ends;
    contacts.emplace_back();
    for (int way = 1; way <= ways; ++way) {
      const std::string there = terminal("way" + std::to_string(way), pole);
      const auto end = installer.node(there);
      const auto contact = installer.add(Resistance{way == start ? closed_s : open_conductance_s},
                                         {common, end}, there);
      contacts.back().push_back(contact);
      ends.emplace_back(contact, end);
    }
    const std::size_t current = installer.watch(
        poles > 1 ? std::string("current of pole ") + static_cast<char>('a' + pole) : "current",
        Ampere::dimension, [common, ends](const network::Network& net, const network::View& view) {
          double sum_a = 0.0;
          for (const auto& [contact, end] : ends) {
            sum_a += net.law(contact).conductance_s * view.between(common, end);
          }
          return std::abs(sum_a);
        });
    installer.rate("contact current", current, rated.si(), true, 1_s,
                   rated.given ? "as stated" : "typical, from memory");
  }
  if (is_stuck) return;
  installer.add_behaviour(std::make_unique<SwitchPosition>(name, std::move(contacts), closed_s,
                                                           has_off ? 0 : 1, start));
}

}  // namespace tideover::part

#include "part/connector/connector.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "part/connector/plug.hpp"
#include "part/installer.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

const Description& Connector::describe() {
  static const Description description =
      Describe<Connector>("connector", "A plug and its socket.")
          .count("pairs", &Connector::pairs, 1, 24, "contacts it has", "plus and minus")
          .flag("plugged_in", &Connector::plugged_in, "whether it is plugged in before the run",
                "as it is left in use")
          .value("resistance", &Connector::resistance, {10e-6_Ohm, 10_Ohm}, "of one mated contact",
                 "typical of small DC plugs after some use, from memory")
          .value("rated", &Connector::rated, {1_mA, 500_A}, "current of one contact",
                 "typical of small DC plugs, from memory")
          .with(fields_of_every_part())
          .done();
  return description;
}

std::unique_ptr<Part> Connector::clone() const { return std::make_unique<Connector>(*this); }

std::vector<Terminal> Connector::terminals() const {
  std::vector<Terminal> all;
  for (int pair = 1; pair <= pairs; ++pair) {
    const std::string number = std::to_string(pair);
    all.push_back({"in" + number, Role::Contact, false, "contact " + number + " of " + name});
    all.push_back({"out" + number, Role::Contact, false, "contact " + number + " of " + name});
  }
  return all;
}

std::vector<FailureMode> Connector::failure_modes() const {
  FailureMode out{"pulled out", "all its contacts are open"};
  FailureMode turned{"plugged in turned round", "its first contact meets the last, and so on"};
  std::vector<FailureMode> modes;
  for (int pair = 1; pair <= pairs; ++pair) {
    const std::string number = std::to_string(pair);
    const std::string next = std::to_string(pair + 1);
    const int across = pairs + 1 - pair;
    out.damages.push_back(opened("in" + number));
    if (pair < across) {
      turned.damages.push_back(exchanged("out" + number, "out" + std::to_string(across)));
    }
    // A single open contact is no mode: each lead at it, broken or come off, is the same fault.
    modes.push_back({"contact " + number + " worn",
                     "it makes a poor contact and gets hot",
                     {resistive("in" + number, poor_contact)}});
    if (pair == pairs) continue;
    modes.push_back({fmt::format("contacts {} and {} bridged", number, next),
                     "a blob of solder or a stray strand joins them",
                     {bridged("in" + number, "in" + next)}});
  }
  modes.push_back(std::move(out));
  if (!turned.damages.empty()) modes.push_back(std::move(turned));
  return modes;
}

std::vector<TestPoint> Connector::test_points() const {
  return {{"in1", "out1", "drop over one contact, millivolts; resistance with the power off"}};
}

void Connector::install(Installer& installer) const {
  const double closed_s = 1.0 / std::max(resistance.si(), least_resistance_ohm);
  std::vector<network::Handle<Resistance>> contacts;
  std::vector<std::pair<network::NodeId, network::NodeId>> ends;
  for (int pair = 1; pair <= pairs; ++pair) {
    const std::string number = std::to_string(pair);
    const auto in = installer.node("in" + number);
    const auto out = installer.node("out" + number);
    contacts.push_back(installer.add(Resistance{plugged_in ? closed_s : open_conductance_s},
                                     {in, out}, "contact " + number));
    ends.emplace_back(in, out);
  }
  const std::size_t current = installer.watch(
      "current of the busiest contact", Ampere::dimension,
      [contacts, ends](const network::Network& net, const network::View& view) {
        double largest_a = 0.0;
        for (std::size_t k = 0; k < contacts.size(); ++k) {
          const double drop_v = view.between(ends[k].first, ends[k].second);
          largest_a = std::max(largest_a, std::abs(net.law(contacts[k]).conductance_s * drop_v));
        }
        return largest_a;
      });
  installer.rate("contact current", current, rated.si(), true, 60_s,
                 rated.given ? "as stated" : "typical, from memory");
  installer.add_behaviour(std::make_unique<Plug>(name, std::move(contacts), closed_s, plugged_in));
}

}  // namespace tideover::part

#include "run/circuit.hpp"

#include <algorithm>

#include "base/contract.hpp"
#include "build/points.hpp"
#include "part/pack/pack.hpp"
#include "run/surroundings.hpp"

namespace tideover::run {

using build::Build;
using build::TerminalName;
using network::NodeId;

namespace {

void make_nodes(const Build& build, Circuit& circuit) {
  const build::Points points = build::points_of(build);
  const TerminalName reference = points.point_of(build::common_of(build));
  std::map<TerminalName, NodeId> made{{reference, network::reference_node}};
  const auto make = [&](const TerminalName& name) {
    const TerminalName& point = points.point_of(name);
    auto at = made.find(point);
    if (at == made.end()) {
      const NodeId node = circuit.network.add_electrical_node(name.part + "." + name.terminal);
      at = made.emplace(point, node).first;
    }
    circuit.nodes[name] = at->second;
  };
  for (const auto& part : build.parts) {
    for (const part::Terminal& terminal : part->terminals()) {
      const TerminalName name{part->name, terminal.name};
      make(name);
      make(build::behind(build, name));
    }
  }
}

void install_parts(const Build& build, const Circumstances& circumstances,
                   Surroundings& surroundings, Circuit& circuit) {
  for (const auto& part : build.parts) {
    std::map<std::string, NodeId> nodes;
    for (const part::Terminal& terminal : part->terminals()) {
      nodes[terminal.name] = circuit.nodes.at(build::behind(build, {part->name, terminal.name}));
    }
    part::Installer installer(circuit.network, *part, std::move(nodes), surroundings.air_of(*part),
                              surroundings.ambient(), circumstances.ambient, circuit.instruments,
                              &surroundings);
    const auto* pack = dynamic_cast<const part::Pack*>(part.get());
    if (circumstances.cells_aged && pack != nullptr) {
      pack->at_end_of_life()->install(installer);
    } else {
      part->install(installer);
    }
  }
}

void add_leads(const Build& build, const Circumstances& circumstances, Circuit& circuit) {
  for (const build::Lead& lead : build.leads) {
    const NodeId from = circuit.nodes.at(lead.from);
    const NodeId to = circuit.nodes.at(lead.to);
    const double r_ohm =
        std::max(lead.wire.resistance(circumstances.ambient).si(), part::least_resistance_ohm);
    const auto handle =
        circuit.network.add(part::Resistance{1.0 / r_ohm}, {from, to}, "leads." + lead.name);
    circuit.leads.push_back({&lead, handle, from, to});
    circuit.instruments.channels.push_back(
        {"leads." + lead.name, "current", quantity::Ampere::dimension, false,
         [handle, from, to](const network::Network& net, const network::View& view) {
           return net.law(handle).conductance_s * view.between(from, to);
         }});
    const part::Ampacity ampacity = lead.wire.ampacity(circumstances.ambient);
    circuit.instruments.ratings.push_back({"leads." + lead.name, "ampacity",
                                           circuit.instruments.channels.size() - 1,
                                           ampacity.current.si(), true, 10.0, ampacity.table});
  }
}

/// Conductance of what a defect concerns while it is there, and before.
struct Conductances {
  double arisen_s = part::open_conductance_s;
  double sound_s = part::open_conductance_s;
};

Conductances conductances_of(const build::Defect& defect, double sound_s) {
  const double added_ohm = std::max(defect.resistance.si(), part::least_resistance_ohm);
  switch (defect.what) {
    case part::Damage::What::Open: return {part::open_conductance_s, sound_s};
    case part::Damage::What::Resistive: return {1.0 / (1.0 / sound_s + added_ohm), sound_s};
    case part::Damage::What::Bridged: return {1.0 / added_ohm, part::open_conductance_s};
    case part::Damage::What::Exchanged: break;
  }
  return {};
}

struct DamagedElement {
  network::Handle<part::Resistance> handle;
  NodeId from;
  NodeId to;
};

/// A damaged lead keeps its element; what is broken elsewhere is one of its own.
DamagedElement element_of(const build::Defect& defect, const Build& build, Circuit& circuit) {
  if (!defect.lead.empty()) {
    const auto lead = std::ranges::find_if(
        circuit.leads, [&](const LeadElement& one) { return one.lead->name == defect.lead; });
    TIDEOVER_EXPECT(lead != circuit.leads.end(), "a defect is of a lead that the build has");
    lead->is_damaged = true;
    return {lead->handle, lead->from, lead->to};
  }
  const bool is_bridge = defect.what == part::Damage::What::Bridged;
  const NodeId from = circuit.nodes.at(defect.terminal);
  const NodeId to =
      circuit.nodes.at(is_bridge ? defect.other : build::behind(build, defect.terminal));
  const std::string name =
      std::string(defects_account) + "." + std::to_string(circuit.defects.size() + 1);
  const auto handle =
      circuit.network.add(part::Resistance{1.0 / part::least_resistance_ohm}, {from, to}, name);
  return {handle, from, to};
}

/// Heat in a contact that should have none: above some watts it chars what holds it.
constexpr double charring_w = 5.0;
constexpr double chars_after_s = 60.0;

/// The heat in what is loose, or in what joins two points that should be apart.
void watch_contact(const build::Defect& defect, network::Handle<part::Resistance> handle,
                   NodeId from, NodeId to, Circuit& circuit) {
  const bool is_bridge = defect.what == part::Damage::What::Bridged;
  const std::string name = is_bridge ? "heat of the short" : "heat of the poor contact";
  const double added_ohm = defect.resistance.si();
  circuit.instruments.channels.push_back(
      {std::string(defects_account), name, quantity::Watt::dimension, false,
       [=](const network::Network& net, const network::View& view) {
         const double current_a = net.law(handle).conductance_s * view.between(from, to);
         return is_bridge ? current_a * view.between(from, to) : current_a * current_a * added_ohm;
       }});
  circuit.instruments.ratings.push_back({std::string(defects_account), name,
                                         circuit.instruments.channels.size() - 1, charring_w, true,
                                         chars_after_s, "common practice, no source"});
}

void add_defects(const Build& build, Circuit& circuit) {
  for (const build::Defect& defect : build.defects) {
    if (defect.what == part::Damage::What::Exchanged) continue;
    const auto [handle, from, to] = element_of(defect, build, circuit);
    double& conductance_s = circuit.network.law(handle).conductance_s;
    const Conductances all = conductances_of(defect, conductance_s);
    conductance_s = defect.arises_later ? all.sound_s : all.arisen_s;
    circuit.defects.push_back({&defect, handle, all.arisen_s});
    if (defect.what != part::Damage::What::Open) watch_contact(defect, handle, from, to, circuit);
  }
}

void add_meters(const Build& build, Circuit& circuit) {
  for (const auto& part : build.parts) {
    for (const part::TestPoint& point : part->test_points()) {
      const NodeId plus = circuit.nodes.at({part->name, point.plus});
      const NodeId minus = circuit.nodes.at({part->name, point.minus});
      circuit.instruments.channels.push_back(
          {part->name, meter_channel(point), quantity::Volt::dimension, false,
           [plus, minus](const network::Network&, const network::View& view) {
             return view.between(plus, minus);
           }});
    }
  }
}

/// "leads.sea_plus" is kept by leads_account, "up24.power stage" by up24.
std::string owner_of(const std::string& element) { return element.substr(0, element.find('.')); }

}  // namespace

std::string meter_channel(const part::TestPoint& point) {
  return "meter from " + point.plus + " to " + point.minus;
}

Circuit assemble(const Build& build, const Circumstances& circumstances) {
  Circuit circuit;
  make_nodes(build, circuit);
  Surroundings surroundings(circuit.network, build, circumstances.ambient);
  install_parts(build, circumstances, surroundings, circuit);
  add_leads(build, circumstances, circuit);
  add_defects(build, circuit);
  if (circumstances.has_meters) add_meters(build, circuit);
  surroundings.add_behaviours(circuit.leads);
  circuit.network.seal();
  for (const std::string& element : circuit.network.element_names()) {
    circuit.element_owner.push_back(owner_of(element));
  }
  return circuit;
}

}  // namespace tideover::run

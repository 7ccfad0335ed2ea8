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

/// Lowest is best: the minus of an adapter, then any minus.
int rank_as_reference(const part::Part& part, const part::Terminal& terminal) {
  if (terminal.role != part::Role::Minus) return 2;
  return part.description().name == "adapter" ? 0 : 1;
}

TerminalName choose_reference(const Build& build) {
  TerminalName best;
  int best_rank = 3;
  for (const auto& part : build.parts) {
    for (const part::Terminal& terminal : part->terminals()) {
      const int rank = rank_as_reference(*part, terminal);
      if (rank >= best_rank) continue;
      best_rank = rank;
      best = {part->name, terminal.name};
    }
  }
  return best;
}

void make_nodes(const Build& build, Circuit& circuit) {
  const build::Points points = build::points_of(build);
  const TerminalName reference = points.point_of(choose_reference(build));
  std::map<TerminalName, NodeId> made{{reference, network::reference_node}};
  for (const auto& part : build.parts) {
    for (const part::Terminal& terminal : part->terminals()) {
      const TerminalName name{part->name, terminal.name};
      const TerminalName& point = points.point_of(name);
      auto at = made.find(point);
      if (at == made.end()) {
        const NodeId node = circuit.network.add_electrical_node(name.part + "." + name.terminal);
        at = made.emplace(point, node).first;
      }
      circuit.nodes[name] = at->second;
    }
  }
}

void install_parts(const Build& build, const Circumstances& circumstances,
                   Surroundings& surroundings, Circuit& circuit) {
  for (const auto& part : build.parts) {
    std::map<std::string, NodeId> nodes;
    for (const part::Terminal& terminal : part->terminals()) {
      nodes[terminal.name] = circuit.nodes.at({part->name, terminal.name});
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

std::string owner_of(const std::string& element) {
  const std::string first = element.substr(0, element.find('.'));
  return first == "leads" ? "leads" : first;
}

}  // namespace

Circuit assemble(const Build& build, const Circumstances& circumstances) {
  Circuit circuit;
  make_nodes(build, circuit);
  Surroundings surroundings(circuit.network, build, circumstances.ambient);
  install_parts(build, circumstances, surroundings, circuit);
  add_leads(build, circumstances, circuit);
  surroundings.add_behaviours(circuit.leads);
  circuit.network.seal();
  for (const std::string& element : circuit.network.element_names()) {
    circuit.element_owner.push_back(owner_of(element));
  }
  return circuit;
}

}  // namespace tideover::run

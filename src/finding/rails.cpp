#include "finding/rails.hpp"

#include <algorithm>
#include <utility>

#include "part/connector/connector.hpp"
#include "part/diode/diode.hpp"
#include "part/fuse/fuse.hpp"
#include "part/ideal_diode/ideal_diode.hpp"
#include "part/polarity_guard/polarity_guard.hpp"
#include "part/protection_board/protection_board.hpp"
#include "part/relay/relay.hpp"
#include "part/switch/switch.hpp"
#include "part/terminal_block/terminal_block.hpp"
#include "part/thermal_cut_out/thermal_cut_out.hpp"

namespace tideover::finding {

using build::TerminalName;

namespace {

/// "common_b" -> "_b": which pole a contact's terminal belongs to; empty where there is one.
std::string pole_of(const std::string& terminal) {
  const std::size_t mark = terminal.find('_');
  return mark == std::string::npos ? "" : terminal.substr(mark);
}

}  // namespace

Rails::Rails(const build::Build& build) {
  for (const build::Join& join : build.joins) {
    for (const TerminalName& terminal : join.terminals) {
      points_.merge(join.terminals.front(), terminal);
    }
  }
  for (const build::Lead& lead : build.leads) points_.merge(lead.from, lead.to);
  for (const auto& part : build.parts) {
    join_inside(*part);
    add_gates(*part);
  }
}

void Rails::join_inside(const part::Part& part) {
  for (const auto& group : part.joined_inside()) {
    for (const std::string& terminal : group) {
      points_.merge({part.name, group.front()}, {part.name, terminal});
    }
  }
  const auto merge = [&](const std::string& a, const std::string& b) {
    points_.merge({part.name, a}, {part.name, b});
  };
  if (dynamic_cast<const part::Fuse*>(&part) != nullptr ||
      dynamic_cast<const part::ThermalCutOut*>(&part) != nullptr) {
    merge("a", "b");
  } else if (dynamic_cast<const part::ProtectionBoard*>(&part) != nullptr) {
    merge("b_minus", "p_minus");
  } else if (dynamic_cast<const part::TerminalBlock*>(&part) != nullptr) {
    for (const part::Terminal& terminal : part.terminals()) merge("w1", terminal.name);
  } else if (dynamic_cast<const part::Connector*>(&part) != nullptr) {
    for (const part::Terminal& terminal : part.terminals()) {
      if (terminal.name.starts_with("in")) merge(terminal.name, "out" + terminal.name.substr(2));
    }
  }
}

void Rails::add_gates(const part::Part& part) {
  const auto gate = [&](const std::string& from, const std::string& to,
                        const std::string& contact = {}) {
    gates_.push_back({{part.name, from}, {part.name, to}, contact});
  };
  if (dynamic_cast<const part::Diode*>(&part) != nullptr ||
      dynamic_cast<const part::IdealDiode*>(&part) != nullptr) {
    gate("anode", "cathode");
  } else if (dynamic_cast<const part::PolarityGuard*>(&part) != nullptr) {
    gate("in", "out");
  } else if (dynamic_cast<const part::Switch*>(&part) != nullptr ||
             dynamic_cast<const part::Relay*>(&part) != nullptr) {
    std::string common = "common";
    for (const part::Terminal& terminal : part.terminals()) {
      if (terminal.role != part::Role::Contact) continue;
      if (terminal.name.starts_with("common")) {
        common = terminal.name;
        continue;
      }
      gate(common, terminal.name, part.name + pole_of(common));
      gate(terminal.name, common, part.name + pole_of(common));
    }
  }
}

bool Rails::feeds(const TerminalName& source, const TerminalName& terminal) const {
  const TerminalName& wanted = points_.point_of(terminal);
  // A way through the contacts uses each pole once.
  std::vector<std::pair<TerminalName, std::set<std::string>>> ends{{points_.point_of(source), {}}};
  std::set<std::pair<TerminalName, std::set<std::string>>> seen{ends.front()};
  while (!ends.empty()) {
    const auto [at, used] = ends.back();
    ends.pop_back();
    if (at == wanted) return true;
    for (const Gate& gate : gates_) {
      if (points_.point_of(gate.from) != at || used.contains(gate.contact)) continue;
      auto next = std::make_pair(points_.point_of(gate.to), used);
      if (!gate.contact.empty()) next.second.insert(gate.contact);
      if (seen.insert(next).second) ends.push_back(std::move(next));
    }
  }
  return false;
}

}  // namespace tideover::finding

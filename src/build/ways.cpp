#include "build/ways.hpp"

#include "build/points.hpp"
#include "part/connector/connector.hpp"
#include "part/converter/board.hpp"
#include "part/diode/diode.hpp"
#include "part/fuse/fuse.hpp"
#include "part/ideal_diode/ideal_diode.hpp"
#include "part/polarity_guard/polarity_guard.hpp"
#include "part/protection_board/protection_board.hpp"
#include "part/relay/relay.hpp"
#include "part/resistor/resistor.hpp"
#include "part/switch/switch.hpp"
#include "part/terminal_block/terminal_block.hpp"
#include "part/thermal_cut_out/thermal_cut_out.hpp"

namespace tideover::build {

using quantity::Ohm;

namespace {

/// What has less is a way, what has more limits the current by itself.
constexpr double resistor_ohm = 1.0;

template <class Kind>
const Kind* as(const part::Part& part) {
  return dynamic_cast<const Kind*>(&part);
}

/// "common2" for pole 2 of a relay, "common_b" for that of a switch, "" behind the first of one.
struct PoleNames {
  std::string common;
  std::vector<std::string> throws;
};

std::vector<PoleNames> poles_of(const part::Relay& relay) {
  std::vector<PoleNames> all;
  for (int pole = 1; pole <= relay.poles; ++pole) {
    const std::string number = pole == 1 ? "" : std::to_string(pole);
    all.push_back({"common" + number, {"rest" + number, "work" + number}});
  }
  return all;
}

std::vector<PoleNames> poles_of(const part::Switch& hand) {
  std::vector<PoleNames> all;
  for (int pole = 0; pole < hand.poles; ++pole) {
    const std::string letter =
        hand.poles > 1 ? std::string("_") + static_cast<char>('a' + pole) : "";
    PoleNames names{"common" + letter, {}};
    for (int way = 1; way <= hand.ways; ++way) {
      names.throws.push_back("way" + std::to_string(way) + letter);
    }
    all.push_back(std::move(names));
  }
  return all;
}

}  // namespace

Ways::Ways(const Build& build) {
  const Points points = points_of(build);
  std::map<TerminalName, std::size_t> counted;
  for (const auto& part : build.parts) {
    for (const part::Terminal& terminal : part->terminals()) {
      const TerminalName name{part->name, terminal.name};
      const auto [known, is_new] = counted.try_emplace(points.point_of(name), points_);
      if (is_new) ++points_;
      point_of_[name] = known->second;
    }
  }
  for (const auto& part : build.parts) {
    add_part(*part);
    add_contacts(*part);
  }
  for (const Lead& lead : build.leads) {
    const auto from = point_of(lead.from);
    const auto to = point_of(lead.to);
    if (!from || !to) continue;
    const Ohm r = lead.wire.resistance(quantity::Temperature::of_celsius(20.0));
    ways_.push_back({.from = *from, .to = *to, .resistance = r, .lead = &lead});
  }
  steps_from_.resize(points_);
  for (std::size_t way = 0; way < ways_.size(); ++way) {
    steps_from_[ways_[way].from].push_back(2 * way);
    steps_from_[ways_[way].to].push_back(2 * way + 1);
  }
}

std::optional<std::size_t> Ways::point_of(const TerminalName& terminal) const {
  const auto found = point_of_.find(terminal);
  if (found == point_of_.end()) return std::nullopt;
  return found->second;
}

void Ways::add(Way way, const part::Part& part, const std::string& from, const std::string& to) {
  const auto begin = point_of({part.name, from});
  const auto end = point_of({part.name, to});
  if (!begin || !end || *begin == *end) return;
  way.from = *begin;
  way.to = *end;
  way.part = &part;
  ways_.push_back(way);
}

void Ways::add_part(const part::Part& part) {
  if (const auto* fuse = as<part::Fuse>(part)) {
    if (!fuse->blown) add({.resistance = fuse->cold_resistance()}, part, "a", "b");
  } else if (const auto* cut_out = as<part::ThermalCutOut>(part)) {
    add({.resistance = cut_out->resistance.nominal()}, part, "a", "b");
  } else if (const auto* resistor = as<part::Resistor>(part)) {
    if (resistor->resistance.si() > resistor_ohm) return;
    add({.resistance = resistor->resistance.nominal()}, part, "a", "b");
  } else if (as<part::Diode>(part) != nullptr) {
    add({.is_one_way = true, .resistance = Ohm{}}, part, "anode", "cathode");
  } else if (const auto* ideal = as<part::IdealDiode>(part)) {
    add({.is_one_way = true, .resistance = ideal->on_resistance.nominal()}, part, "anode",
        "cathode");
  } else if (const auto* guard = as<part::PolarityGuard>(part)) {
    const bool is_diode = guard->style == part::GuardStyle::SeriesDiode;
    add({.is_one_way = is_diode, .resistance = is_diode ? Ohm{} : guard->on_resistance.nominal()},
        part, "in", "out");
  } else if (const auto* board = as<part::ProtectionBoard>(part)) {
    add({.resistance = board->path_resistance.nominal()}, part, "p_minus", "b_minus");
  } else if (const auto* power = as<part::ConverterBoard>(part)) {
    if (power->isolated) return;
    const Way through{.is_one_way = true, .resistance = power->path_resistance.nominal()};
    if (power->topology == part::Topology::StepUp) {
      add(through, part, "in_plus", "out_plus");
    } else if (power->topology == part::Topology::StepDown && !power->blocks_back) {
      add(through, part, "out_plus", "in_plus");
    }
  }
}

void Ways::add_contacts(const part::Part& part) {
  const auto add_poles = [&](const std::vector<PoleNames>& poles, Ohm r) {
    for (const PoleNames& names : poles) {
      for (const std::string& there : names.throws) {
        add({.resistance = r, .pole = poles_}, part, names.common, there);
      }
      ++poles_;
    }
  };
  if (const auto* relay = as<part::Relay>(part)) {
    add_poles(poles_of(*relay), relay->contact_resistance.nominal());
  } else if (const auto* hand = as<part::Switch>(part)) {
    add_poles(poles_of(*hand), hand->resistance.nominal());
  } else if (const auto* plug = as<part::Connector>(part)) {
    for (int pair = 1; pair <= plug->pairs; ++pair) {
      const std::string number = std::to_string(pair);
      add({.resistance = plug->resistance.nominal()}, part, "in" + number, "out" + number);
    }
  } else if (const auto* block = as<part::TerminalBlock>(part)) {
    const std::size_t bar = points_++;
    for (const part::Terminal& clamp : block->terminals()) {
      const auto at = point_of({part.name, clamp.name});
      if (!at) continue;
      ways_.push_back(
          {.from = *at, .to = bar, .resistance = block->resistance.nominal(), .part = &part});
    }
  }
}

}  // namespace tideover::build

#include "reference/hand_built.hpp"

#include <fmt/format.h>

#include "part/capacitor_law.hpp"
#include "part/heat_path.hpp"
#include "part/junction_law.hpp"
#include "part/load/load_draw.hpp"

namespace tideover::reference {

using network::NodeId;
using network::reference_node;

LevelSwitch::LevelSwitch(std::string name, NodeId watched,
                         network::Handle<part::Resistance> contact, const Levels& levels,
                         bool is_closed)
    : name_(std::move(name)),
      watched_(watched),
      contact_(contact),
      levels_(levels),
      is_closed_(is_closed) {}

/// 0: the present state is asked to end. 1: the reason has gone before the delay ran out.
void LevelSwitch::conditions(const network::View& view, std::span<double> margins) const {
  const double level = levels_.sign * view.potential(watched_);
  const double beyond = is_closed_ ? levels_.low - level : level - levels_.high;
  const bool is_waiting = wake_s_ != network::no_wake;
  const double back = 0.1 * (levels_.high - levels_.low);
  margins[0] = is_waiting ? network::never : beyond;
  margins[1] = is_waiting ? -beyond - back : network::never;
}

void LevelSwitch::react(network::Reaction& reaction, int index) {
  if (index == 1) {
    wake_s_ = network::no_wake;
    reaction.mark(name_, "waits no longer");
    return;
  }
  const double delay = is_closed_ ? levels_.opens_after_s : levels_.closes_after_s;
  if (delay == 0.0) return turn(reaction);
  wake_s_ = reaction.time_s() + delay;
  reaction.mark(name_, "begins to wait");
}

void LevelSwitch::woken(network::Reaction& reaction) { turn(reaction); }

void LevelSwitch::turn(network::Reaction& reaction) {
  wake_s_ = network::no_wake;
  is_closed_ = !is_closed_;
  reaction.network().law(contact_).conductance_s =
      is_closed_ ? levels_.closed_s : part::open_conductance_s;
  reaction.mark(name_, is_closed_ ? "closes" : "opens");
}

void Timetable::woken(network::Reaction& reaction) {
  const Entry& entry = entries_[next_++];
  reaction.mark(part(), entry.words);
  if (entry.deed) entry.deed(reaction);
}

void Alarm::react(network::Reaction& reaction, int) {
  is_done_ = true;
  reaction.mark(name_, "is below");
  if (deed_) deed_(reaction);
}

namespace {

network::Handle<part::Capacitance> add_capacitor(network::Network& net, NodeId node, double c_f,
                                                 double v, double esr_ohm, std::string name) {
  return net.add(part::Capacitance{.capacitance_f = c_f, .esr_ohm = esr_ohm},
                 {node, reference_node}, {{{"voltage", v, 1.0}}}, std::move(name));
}

network::Handle<part::Resistance> add_contact(network::Network& net, NodeId a, NodeId b,
                                              bool is_closed, std::string name) {
  return net.add(part::Resistance{is_closed ? 100.0 : part::open_conductance_s}, {a, b},
                 std::move(name));
}

}  // namespace

HandBuilt decay_with_alarms() {
  HandBuilt built{.name = "decay with alarms", .until_s = 30.0};
  auto& net = built.net;
  const NodeId rail = net.add_electrical_node("rail");
  add_capacitor(net, rail, 10e-3, 12.0, 0.05, "capacitor");
  net.add(part::Resistance{1e-3}, {rail, reference_node}, "bleeder");
  const auto load = net.add(part::Resistance{5e-3}, {rail, reference_node}, "load");
  net.add_behaviour(std::make_unique<Alarm>("first", rail, 9.0, [load](network::Reaction& r) {
    r.network().law(load).conductance_s = part::open_conductance_s;
  }));
  net.add_behaviour(std::make_unique<Alarm>("second", rail, 4.0));
  net.seal();
  return built;
}

HandBuilt collapse_and_lockout() {
  HandBuilt built{.name = "collapse and lockout", .until_s = 2.0};
  auto& net = built.net;
  const NodeId source = net.add_electrical_node("source");
  const NodeId rail = net.add_electrical_node("rail");
  const NodeId input = net.add_electrical_node("input");
  net.add(Source{.open_v = 12.0, .r_ohm = 0.2}, {source, reference_node}, "source");
  net.add(part::Resistance{1.0 / 1.8}, {source, rail}, "lead");
  add_capacitor(net, rail, 1e-3, 12.0, 0.02, "capacitor");
  const auto contact = add_contact(net, rail, input, true, "lockout contact");
  const auto draw = net.add(part::LoadDraw{.power_w = 12.0, .resistive_below_v = 3.0},
                            {input, reference_node}, "load");
  net.add_behaviour(std::make_unique<LevelSwitch>(
      "lockout", rail, contact,
      LevelSwitch::Levels{.low = 5.0, .high = 11.0, .opens_after_s = 1e-3, .closes_after_s = 0.05},
      true));
  const auto power = [draw](double watts) {
    return [draw, watts](network::Reaction& r) { r.network().law(draw).power_w = watts; };
  };
  // At most 12^2 / (4 * 2) = 18 W come through.
  net.add_behaviour(std::make_unique<Timetable>(
      std::vector<Timetable::Entry>{{0.1, "asks for 17 W", power(17.0)},
                                    {0.5, "asks for 25 W", power(25.0)},
                                    {1.2, "asks for 8 W", power(8.0)}}));
  net.seal();
  return built;
}

HandBuilt relaxation() {
  HandBuilt built{.name = "relaxation", .until_s = 60.0};
  auto& net = built.net;
  const NodeId source = net.add_electrical_node("source");
  const NodeId rail = net.add_electrical_node("rail");
  const NodeId dump = net.add_electrical_node("dump");
  net.add(Source{.open_v = 12.0, .r_ohm = 100.0}, {source, reference_node}, "source");
  net.add(part::Resistance{1e-2}, {source, rail}, "lead");
  add_capacitor(net, rail, 10e-3, 2.0, 0.05, "capacitor");
  const auto contact = add_contact(net, rail, dump, false, "dump contact");
  net.add(part::Resistance{0.5}, {dump, reference_node}, "dump resistor");
  net.add_behaviour(std::make_unique<LevelSwitch>(
      "dump", rail, contact,
      LevelSwitch::Levels{.low = 3.0, .high = 9.0, .opens_after_s = 2e-3, .closes_after_s = 5e-3},
      false));
  net.seal();
  return built;
}

HandBuilt two_stages() {
  HandBuilt built{.name = "two stages", .until_s = 5.0};
  auto& net = built.net;
  const NodeId first = net.add_electrical_node("first");
  const NodeId second = net.add_electrical_node("second");
  add_capacitor(net, first, 4.7e-3, 12.0, 0.03, "first capacitor");
  add_capacitor(net, second, 2.2e-3, 11.0, 0.03, "second capacitor");
  const auto bridge = add_contact(net, first, second, false, "bridge");
  net.add(part::Resistance{0.2}, {first, second}, "coupling");
  const auto load = net.add(part::LoadDraw{.current_a = 0.02, .resistive_below_v = 1.0},
                            {second, reference_node}, "load");
  net.add(part::Resistance{1e-3}, {first, reference_node}, "bleeder");
  // Both stages pass their levels within microseconds; the second alarm's deed undoes the first's.
  net.add_behaviour(std::make_unique<Alarm>("first", first, 8.1, [bridge](network::Reaction& r) {
    r.network().law(bridge).conductance_s = 50.0;
  }));
  net.add_behaviour(std::make_unique<Alarm>("second", second, 8.0, [bridge](network::Reaction& r) {
    r.network().law(bridge).conductance_s = part::open_conductance_s;
  }));
  net.add_behaviour(std::make_unique<Alarm>("third", second, 7.9999, [load](network::Reaction& r) {
    r.network().law(load).current_a = 0.05;
  }));
  net.add_behaviour(std::make_unique<Alarm>("fourth", second, 7.9998));
  net.seal();
  return built;
}

HandBuilt warm_box() {
  HandBuilt built{.name = "warm box", .until_s = 3600.0};
  auto& net = built.net;
  const NodeId source = net.add_electrical_node("source");
  const NodeId rail = net.add_electrical_node("rail");
  const NodeId heater = net.add_thermal_node("heater", 40.0, 293.15);
  const NodeId box = net.add_thermal_node("box", 900.0, 293.15);
  const NodeId air = net.add_thermal_node("air", 1e9, 293.15);
  net.add(Source{.open_v = 24.0, .r_ohm = 0.5}, {source, reference_node}, "source");
  const auto contact = add_contact(net, source, rail, true, "thermal switch");
  add_capacitor(net, rail, 100e-6, 24.0, 0.1, "capacitor");
  net.add(part::WarmResistance{1.0 / 20.0}, {rail, reference_node, heater}, "heater");
  net.add(part::HeatPath{0.5}, {heater, box}, "into the box");
  net.add(part::HeatPath{0.6}, {box, air}, "into the air");
  net.add_behaviour(std::make_unique<LevelSwitch>(
      "thermal switch", heater, contact,
      LevelSwitch::Levels{.low = -353.15, .high = -333.15, .closes_after_s = 2.0, .sign = -1.0},
      true));
  net.seal();
  return built;
}

HandBuilt diode_rail() {
  HandBuilt built{.name = "diode rail", .until_s = 600.0};
  auto& net = built.net;
  const NodeId rail = net.add_electrical_node("rail");
  const NodeId air = net.add_thermal_node("air", 1e9, 298.15);
  std::vector<network::Handle<Source>> sources;
  for (const auto& [name, volts] : {std::pair{"mains", 13.0}, std::pair{"pack", 12.0}}) {
    const NodeId node = net.add_electrical_node(name);
    const NodeId junction = net.add_thermal_node(fmt::format("{} junction", name), 0.05, 298.15);
    sources.push_back(net.add(Source{.open_v = volts, .r_ohm = 0.1}, {node, reference_node}, name));
    add_capacitor(net, node, 470e-6, volts, 0.05, fmt::format("{} capacitor", name));
    net.add(part::Junction{}, {node, rail, junction}, fmt::format("{} diode", name));
    net.add(part::HeatPath{1.0 / 60.0}, {junction, air}, fmt::format("{} diode's lead", name));
  }
  add_capacitor(net, rail, 1e-3, 12.0, 0.05, "rail capacitor");
  net.add(part::LoadDraw{.power_w = 10.0, .resistive_below_v = 5.0}, {rail, reference_node},
          "load");
  const auto volts = [](network::Handle<Source> source, double v) {
    return [source, v](network::Reaction& r) { r.network().law(source).open_v = v; };
  };
  net.add_behaviour(std::make_unique<Timetable>(
      std::vector<Timetable::Entry>{{60.0, "mains goes", volts(sources[0], 0.0)},
                                    {300.0, "mains is back", volts(sources[0], 13.0)}}));
  net.add_behaviour(std::make_unique<Alarm>("rail dip", rail, 11.9));
  net.add_behaviour(std::make_unique<Alarm>("rail low", rail, 11.3));
  net.seal();
  return built;
}

HandBuilt jumping_divider() {
  HandBuilt built{.name = "jumping divider", .until_s = 8.0};
  auto& net = built.net;
  const NodeId top = net.add_electrical_node("top");
  const NodeId tap = net.add_electrical_node("tap");
  const NodeId lower = net.add_electrical_node("lower tap");
  add_capacitor(net, top, 10e-3, 12.0, 0.1, "capacitor");
  const auto upper = net.add(part::Resistance{1e-3}, {top, tap}, "upper");
  const auto middle = net.add(part::Resistance{1e-3}, {tap, lower}, "middle");
  net.add(part::Resistance{1e-3}, {lower, reference_node}, "lowest");
  // The tap stands at two thirds, the lower one at one third. Each deed makes another margin jump.
  net.add_behaviour(std::make_unique<Alarm>("lower tap", lower, 1.0));
  net.add_behaviour(std::make_unique<Alarm>("tap", tap, 7.0, [upper](network::Reaction& r) {
    r.network().law(upper).conductance_s = 0.2e-3;
  }));
  net.add_behaviour(std::make_unique<Alarm>("deep tap", tap, 3.0, [middle](network::Reaction& r) {
    r.network().law(middle).conductance_s = 5e-3;
  }));
  net.seal();
  return built;
}

std::vector<HandBuilt> all_hand_built() {
  std::vector<HandBuilt> all;
  all.push_back(decay_with_alarms());
  all.push_back(collapse_and_lockout());
  all.push_back(relaxation());
  all.push_back(two_stages());
  all.push_back(warm_box());
  all.push_back(diode_rail());
  all.push_back(jumping_divider());
  return all;
}

}  // namespace tideover::reference

/// A supply put together by hand, about a hundred unknowns: two adapters, a pack of 5 in series and
/// 2 in parallel cell by cell, charger, protection, diodes, two loads, leads. All numbers invented.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "day.hpp"
#include "network/network.hpp"
#include "numeric/smooth.hpp"
#include "part/capacitor_law.hpp"
#include "part/heat_path.hpp"
#include "part/junction_law.hpp"
#include "part/load/load_draw.hpp"
#include "part/pack/cell_group.hpp"
#include "part/resistance.hpp"
#include "reference/hand_built.hpp"

namespace tideover::speed {

using network::NodeId;
using network::reference_node;

/// Constant current, then constant voltage behind a small resistance; takes its power and a loss
/// from its input. Ports: input, output; both against the reference.
struct Charging {
  static constexpr int ports = 2;
  static constexpr int states = 0;
  double limit_a = 1.5;
  double full_v = 20.8;
  double r_ohm = 0.05;
  double efficiency = 0.9;
  double on = 1.0;

  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    const Real wish = numeric::smooth_positive(Real((full_v - u[1]) * (1.0 / r_ohm)), 0.02);
    const Real out = on * numeric::smooth_min(wish, Real(limit_a), 0.1);
    const Real held = numeric::smooth_max(u[0], Real(12.0), 1.0);
    flow[0] = out * u[1] * (1.0 / efficiency) / held;
    flow[1] = -out;
  }
  void ledger(const double* u, const double*, network::Ledger& books) const {
    std::array<double, 2> flow{};
    equations(u, u, flow.data(), flow.data());
    books.lost_w += flow[0] * u[0] + flow[1] * u[1];
  }
};

/// An adapter that loses the mains and gets it back; the charger beside it goes with it.
class AdapterSide final : public network::Behaviour {
 public:
  AdapterSide(network::Handle<reference::Source> source, network::Handle<Charging> charger)
      : source_(source), charger_(charger) {}
  [[nodiscard]] std::unique_ptr<Behaviour> clone() const override {
    return std::make_unique<AdapterSide>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return "adapter"; }
  [[nodiscard]] int condition_count() const override { return 0; }
  void conditions(const network::View&, std::span<double>) const override {}
  void react(network::Reaction&, int) override {}
  void stimulated(network::Reaction& reaction, const network::Stimulus& stimulus) override {
    const bool is_back = stimulus.what == network::Stimulus::What::MainsBack;
    if (!is_back && stimulus.what != network::Stimulus::What::MainsLost) return;
    reaction.network().law(source_).r_ohm = is_back ? 0.1 : 1e9;
    reaction.network().law(charger_).on = is_back ? 1.0 : 0.0;
  }

 private:
  network::Handle<reference::Source> source_;
  network::Handle<Charging> charger_;
};

/// Opens when the weakest group has been too low for a moment; closes when the mains is back.
class Protection final : public network::Behaviour {
 public:
  Protection(std::vector<NodeId> taps, network::Handle<part::Resistance> contact)
      : taps_(std::move(taps)), contact_(contact) {}
  [[nodiscard]] std::unique_ptr<Behaviour> clone() const override {
    return std::make_unique<Protection>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return "protection"; }
  [[nodiscard]] int condition_count() const override { return 2; }
  void conditions(const network::View& view, std::span<double> margins) const override {
    double lowest = 1e9;
    for (std::size_t k = 0; k + 1 < taps_.size(); ++k) {
      lowest = std::min(lowest, view.between(taps_[k + 1], taps_[k]));
    }
    const bool is_waiting = wake_s_ != network::no_wake;
    margins[0] = is_open_ || is_waiting ? network::never : 2.9 - lowest;
    margins[1] = is_waiting ? lowest - 2.92 : network::never;
  }
  [[nodiscard]] double wake_s() const override { return wake_s_; }
  void react(network::Reaction& reaction, int index) override {
    wake_s_ = index == 0 ? reaction.time_s() + 0.1 : network::no_wake;
    reaction.mark(part(), index == 0 ? "waits" : "waits no longer");
  }
  void woken(network::Reaction& reaction) override {
    wake_s_ = network::no_wake;
    is_open_ = true;
    reaction.network().law(contact_).conductance_s = part::open_conductance_s;
    reaction.mark(part(), "cuts off");
  }
  void stimulated(network::Reaction& reaction, const network::Stimulus& stimulus) override {
    if (!is_open_ || stimulus.what != network::Stimulus::What::MainsBack) return;
    is_open_ = false;
    reaction.network().law(contact_).conductance_s = 50.0;
  }
  [[nodiscard]] bool is(network::Fact fact) const override {
    return fact == network::Fact::CutOff && is_open_;
  }

 private:
  std::vector<NodeId> taps_;
  network::Handle<part::Resistance> contact_;
  bool is_open_ = false;
  double wake_s_ = network::no_wake;
};

/// Draws more for `high_s` of every `period_s`.
class Bursts final : public network::Behaviour {
 public:
  explicit Bursts(network::Handle<part::LoadDraw> draw) : draw_(draw) {}
  [[nodiscard]] std::unique_ptr<Behaviour> clone() const override {
    return std::make_unique<Bursts>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return "bursts"; }
  [[nodiscard]] int condition_count() const override { return 0; }
  void conditions(const network::View&, std::span<double>) const override {}
  void react(network::Reaction&, int) override {}
  [[nodiscard]] double wake_s() const override { return wake_s_; }
  void woken(network::Reaction& reaction) override {
    is_high_ = !is_high_;
    reaction.network().law(draw_).power_w = is_high_ ? 9.0 : 5.4;
    wake_s_ += is_high_ ? 10.0 : 50.0;
    reaction.allow_long_step();
  }

 private:
  network::Handle<part::LoadDraw> draw_;
  bool is_high_ = false;
  double wake_s_ = 50.0;
};

class StandIn {
 public:
  explicit StandIn(bool has_bursts) : has_bursts_(has_bursts) {}

  [[nodiscard]] Day make() && {
    box_ = net_.add_thermal_node("box", 800.0, 298.15);
    const NodeId air = net_.add_thermal_node("air", 1e12, 298.15);
    net_.add(part::HeatPath{0.8}, {box_, air}, "walls");
    const NodeId supply = add_adapter();
    const NodeId pack = add_pack();
    const NodeId rail = leads(net_.add_electrical_node("rail"), 3, "rail");
    add_diode(leads(supply, 3, "adapter lead"), rail, "adapter diode");
    add_diode(leads(pack, 3, "pack lead"), rail, "pack diode");
    const NodeId charged = leads(pack, 2, "charger lead");
    add_capacitor(charged, 100e-6, 19.0, "charger capacitor");
    const auto charger = net_.add(Charging{}, {supply, charged}, "charger");
    net_.add_behaviour(std::make_unique<AdapterSide>(source_, charger));
    add_loads(rail);
    net_.seal();
    Day day{.name = has_bursts_ ? "burst day" : "day", .net = std::move(net_)};
    day.start = day.net.start();
    using What = network::Stimulus::What;
    day.stretches = {
        {.stimuli = {}, .lasts_s = 1800.0},
        {.stimuli = {{What::MainsLost, "", 0, 0.0}}, .lasts_s = 60000.0, .ends_at_cut_off = true},
        {.stimuli = {}, .lasts_s = 1800.0},
        {.stimuli = {{What::MainsBack, "", 0, 0.0}}, .lasts_s = 43200.0}};
    return day;
  }

 private:
  /// `count` leads in a row from `from`; the node at their end.
  NodeId leads(NodeId from, int count, const std::string& name) {
    for (int k = 0; k < count; ++k) {
      const NodeId to = net_.add_electrical_node(fmt::format("{} {}", name, k));
      net_.add(part::Resistance{1.0 / (0.01 + 0.004 * k)}, {from, to}, name);
      from = to;
    }
    return from;
  }
  void add_capacitor(NodeId node, double c_f, double v, const std::string& name) {
    net_.add(part::Capacitance{.capacitance_f = c_f, .esr_ohm = 0.05}, {node, reference_node},
             {{{"voltage", v, 10.0}}}, name);
  }
  NodeId add_adapter() {
    const NodeId node = net_.add_electrical_node("adapter");
    source_ = net_.add(reference::Source{.open_v = 24.0, .r_ohm = 0.1}, {node, reference_node},
                       "adapter");
    add_capacitor(node, 2.2e-3, 24.0, "adapter capacitor");
    return leads(node, 2, "adapter plug");
  }
  void add_diode(NodeId from, NodeId to, const std::string& name) {
    const NodeId junction = net_.add_thermal_node(name + " junction", 0.2, 298.15);
    net_.add(part::Junction{}, {from, to, junction}, name);
    net_.add(part::HeatPath{1.0 / 40.0}, {junction, box_}, name + " leads");
  }
  NodeId add_pack();
  void add_loads(NodeId rail);

  bool has_bursts_;
  network::Network net_;
  NodeId box_;
  network::Handle<reference::Source> source_;
};

inline NodeId StandIn::add_pack() {
  part::CellCurves curves;
  curves.rest_v = numeric::Table(
      {-0.06, 0.0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.05},
      {0.0, 2.7, 3.25, 3.4, 3.5, 3.56, 3.6, 3.66, 3.76, 3.86, 3.95, 4.05, 4.19, 4.6});
  curves.resistance_ratio = numeric::Table({0.0, 0.1, 0.3, 1.0}, {2.2, 1.3, 1.0, 0.95});
  const auto shared = std::make_shared<const part::CellCurves>(curves);
  std::vector<NodeId> taps{net_.add_electrical_node("tap 0")};
  net_.add(part::Resistance{200.0}, {taps[0], reference_node}, "pack minus");
  for (int group = 0; group < 5; ++group) {
    taps.push_back(net_.add_electrical_node(fmt::format("tap {}", group + 1)));
    for (int k = 0; k < 2; ++k) {
      const std::string name = fmt::format("cell {}{}", group + 1, k == 0 ? 'a' : 'b');
      const NodeId body = net_.add_thermal_node(name, 45.0, 298.15);
      net_.add(part::HeatPath{0.15}, {body, box_}, name + " air");
      part::CellGroup<2, false> cell{.curves = shared,
                                     .capacity_c = 9000.0 * (1.0 - 0.003 * group),
                                     .r_ohm = 0.03 + 0.001 * k,
                                     .link_ohm = 0.002,
                                     .arrhenius_k = 1800.0,
                                     .pairs = {{{0.012, 25.0}, {0.018, 900.0}}},
                                     .gap_v = 0.01,
                                     .side_share = 0.002,
                                     .leak_per_s = 1e-9,
                                     .leak_per_k = 0.07};
      net_.add(
          cell,
          {taps[static_cast<std::size_t>(group) + 1], taps[static_cast<std::size_t>(group)], body},
          {{{"charge", 0.93, 1.0}, {"branch", 0.0, 1.0}, {"rc 1", 0.0, 0.1}, {"rc 2", 0.0, 0.1}}},
          name);
    }
  }
  const NodeId out = net_.add_electrical_node("board");
  const auto contact = net_.add(part::Resistance{50.0}, {taps.back(), out}, "board");
  net_.add_behaviour(std::make_unique<Protection>(taps, contact));
  return out;
}

inline void StandIn::add_loads(NodeId rail) {
  for (const auto& [name, watts] : {std::pair{"logger", 2.5}, std::pair{"radio", 5.4}}) {
    const NodeId input = leads(rail, 4, fmt::format("{} lead", name));
    add_capacitor(input, 470e-6, 23.0, fmt::format("{} capacitor", name));
    const auto draw = net_.add(part::LoadDraw{.power_w = watts, .resistive_below_v = 8.0},
                               {input, reference_node}, name);
    if (has_bursts_ && watts > 5.0) net_.add_behaviour(std::make_unique<Bursts>(draw));
  }
}

/// 30 min of mains, an outage to cut-off, half an hour dark, 12 h of recharge: about 24 h.
[[nodiscard]] inline Day stand_in_day(bool has_bursts) { return StandIn(has_bursts).make(); }

}  // namespace tideover::speed

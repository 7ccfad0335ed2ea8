#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "part/installer.hpp"
#include "part/pack/cell_group.hpp"
#include "part/pack/pack.hpp"
#include "part/pack/rate_wells.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;
using network::NodeId;

namespace {

constexpr double days_30_s = 30.0 * 86400.0;
/// Rest-voltage tables have a point every 5 % or so; see StateStart.
constexpr double soc_stride = 0.02;
/// A current below this share of the 1 h current is no charging: topping up, a divider's drain.
constexpr double charging_share = 0.005;
constexpr double ln2 = 0.69314718055994531;

/// Arrhenius temperature B from the ratio of resistances at 0 degC and 25 degC.
double arrhenius_k(double cold_factor) {
  return std::log(cold_factor) / (1.0 / (0.0_degC).si() - 1.0 / (25.0_degC).si());
}

template <int Pairs, bool Wells>
CellGroup<Pairs, Wells> group_law(const Pack& pack, const std::shared_ptr<const CellCurves>& curves,
                                  int number) {
  const Cell& cell = pack.cell;
  const RateWells wells = wells_of(cell.rate_exponent.si(), cell.rated_hours.si());
  const double share = pack.resistance_factor() / static_cast<double>(pack.live_cells(number));
  CellGroup<Pairs, Wells> law;
  law.capacity_c = pack.group_capacity(number).si() * wells.both_over_rated;
  law.r_ohm = curves->half_charge_ohm * share;
  law.curves = curves;
  law.link_ohm = pack.link_resistance.si();
  law.arrhenius_k = arrhenius_k(cell.cold_factor.si());
  law.pairs[0] = {cell.quick_resistance.si() * share, cell.quick_time.si()};
  if constexpr (Pairs > 1) law.pairs[1] = {cell.slow_resistance.si() * share, cell.slow_time.si()};
  law.gap_v = cell.branch_gap.si();
  law.turn_share = cell.branch_turn.si();
  law.side_share = 1.0 - cell.coulombic_efficiency.si();
  law.leak_per_s = -std::log1p(-cell.self_discharge.si()) / days_30_s * pack.leak_factor(number);
  law.leak_per_k = ln2 / cell.self_discharge_doubles.si();
  law.near_share = wells.near_share;
  law.level_per_s = wells.level_per_s;
  return law;
}

/// One installed group: where its law, its ports and its states are.
template <int Pairs, bool Wells>
struct Placed {
  using Group = CellGroup<Pairs, Wells>;
  network::Handle<Group> handle;
  std::array<NodeId, 3> nodes;

  [[nodiscard]] std::array<double, 3> potentials(const network::View& view) const {
    return {view.potential(nodes[0]), view.potential(nodes[1]), view.potential(nodes[2])};
  }
  [[nodiscard]] std::array<double, Group::states> states(const network::Network& net,
                                                         const network::View& view) const {
    std::array<double, Group::states> x{};
    for (int s = 0; s < Group::states; ++s) {
      x[static_cast<std::size_t>(s)] = view.state(net.state(handle, s));
    }
    return x;
  }
};

/// The pack is found at a stated charge: rested, and on neither branch.
template <int Pairs, bool Wells>
class FoundCharge final : public network::Behaviour {
 public:
  FoundCharge(std::string part, std::vector<Placed<Pairs, Wells>> placed)
      : part_(std::move(part)), placed_(std::move(placed)) {}
  [[nodiscard]] std::unique_ptr<Behaviour> clone() const override {
    return std::make_unique<FoundCharge>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return part_; }
  [[nodiscard]] int condition_count() const override { return 0; }
  void conditions(const network::View&, std::span<double>) const override {}
  void react(network::Reaction&, int) override {}
  void stimulated(network::Reaction& reaction, const network::Stimulus& stimulus) override {
    if (stimulus.what != network::Stimulus::What::ChargeTo || stimulus.word != part_) return;
    for (const auto& one : placed_) {
      for (int s = 0; s < CellGroup<Pairs, Wells>::states; ++s) {
        reaction.set_state(reaction.network().state(one.handle, s), s == 0 ? stimulus.amount : 0.0);
      }
    }
  }

 private:
  std::string part_;
  std::vector<Placed<Pairs, Wells>> placed_;
};

template <class Group>
std::array<network::StateStart, static_cast<std::size_t>(Group::states)> starts(double charge,
                                                                                double gap_v) {
  std::array<network::StateStart, static_cast<std::size_t>(Group::states)> all;
  for (auto& state : all) state = {"polarisation", 0.0, 1.0};
  all[0] = {.name = "charge", .start = charge, .scale = 1.0, .stride = soc_stride};
  // Mains behind it: the last thing that happened was charging. Its error is judged by the voltage
  // it makes, against one volt as all voltages are.
  all[1] = {"branch", 1.0, 2.0 / std::max(gap_v, 0.01)};
  return all;
}

template <int Pairs, bool Wells>
void watch_groups(Installer& installer, const Pack& pack,
                  const std::vector<Placed<Pairs, Wells>>& placed) {
  const Cell& cell = pack.cell;
  for (int k = 1; k <= pack.series; ++k) {
    const auto& at = placed[static_cast<std::size_t>(k - 1)].nodes;
    const auto voltage = installer.watch_voltage(fmt::format("group {} voltage", k), at[0], at[1]);
    installer.rate("highest cell voltage", voltage, 1.012 * cell.charge_to.si(), true, 1.0_s,
                   "highest charge voltage and 50 mV in 4.2 V, usual for lithium cells");
    installer.rate("lowest cell voltage", voltage, cell.discharge_to.si(), false, 1.0_s,
                   "lowest discharge voltage");
  }
  const auto top = placed.back();
  const auto current =
      installer.watch("discharge current", Ampere::dimension,
                      [top](const network::Network& net, const network::View& view) {
                        const auto u = top.potentials(view);
                        const auto x = top.states(net, view);
                        return -net.law(top.handle).current_a(u.data(), x.data());
                      });
  double n = pack.parallel;
  for (int k = 1; k <= pack.series; ++k) n = std::min(n, 1.0 * pack.live_cells(k));
  installer.rate("discharge current", current, n * cell.discharge_current.si(), true, 1.0_s,
                 "of one cell times the cells side by side");
  installer.rate("charge current", current, -n * cell.charge_current.si(), false, 1.0_s,
                 "of one cell times the cells side by side");
  // Outside charging it stands in the middle of the window, where nothing can be exceeded.
  const double low_k = cell.charge_window.low().si();
  const double high_k = cell.charge_window.high().si();
  const double charging_a = charging_share * n * cell.capacity.si() / 3600.0;
  const auto charging = installer.watch_temperature_of(
      "cell temperature while charging",
      [top, low_k, high_k, charging_a](const network::Network& net, const network::View& view) {
        const auto u = top.potentials(view);
        const auto x = top.states(net, view);
        const bool is_charging = net.law(top.handle).current_a(u.data(), x.data()) > charging_a;
        return is_charging ? u[2] : 0.5 * (low_k + high_k);
      });
  installer.rate("lowest temperature to charge at", charging, low_k, false, 60.0_s,
                 "temperatures at which the cell may be charged");
  installer.rate("highest temperature to charge at", charging, high_k, true, 60.0_s,
                 "temperatures at which the cell may be charged");
  installer.watch("charge", Ratio::dimension,
                  [placed](const network::Network& net, const network::View& view) {
                    double least = 1e30;
                    for (const auto& one : placed)
                      least = std::min(least, one.states(net, view)[0]);
                    return least;
                  });
  installer.watch("energy left", Joule::dimension,
                  [placed](const network::Network& net, const network::View& view) {
                    double sum = 0.0;
                    for (const auto& one : placed) {
                      sum += net.law(one.handle).energy_left_j(one.states(net, view).data());
                    }
                    return sum;
                  });
}

template <int Pairs, bool Wells>
void install_groups(Installer& installer, const Pack& pack, NodeId cells) {
  const auto curves = std::make_shared<const CellCurves>(curves_of(pack.cell));
  std::vector<Placed<Pairs, Wells>> placed;
  for (int k = 1; k <= pack.series; ++k) {
    const std::array<NodeId, 3> nodes{installer.node(pack.terminal_above(k)),
                                      installer.node(pack.terminal_below(k)), cells};
    const auto handle = installer.add(
        group_law<Pairs, Wells>(pack, curves, k), nodes,
        starts<CellGroup<Pairs, Wells>>(pack.start_charge(k).si(), pack.cell.branch_gap.si()),
        fmt::format("group {}", k));
    placed.push_back({handle, nodes});
  }
  watch_groups(installer, pack, placed);
  installer.add_behaviour(
      std::make_unique<FoundCharge<Pairs, Wells>>(pack.name, std::move(placed)));
}

}  // namespace

void Pack::install(Installer& installer) const {
  const NodeId cells = installer.body();
  const bool is_slow = cell.slow_resistance.si() > 0.0;
  const bool has_wells = cell.rate_exponent.si() > 1.0;
  if (is_slow && has_wells) {
    install_groups<2, true>(installer, *this, cells);
  } else if (is_slow) {
    install_groups<2, false>(installer, *this, cells);
  } else if (has_wells) {
    install_groups<1, true>(installer, *this, cells);
  } else {
    install_groups<1, false>(installer, *this, cells);
  }
  installer.watch_voltage("voltage", installer.node("plus"), installer.node("minus"));
  const auto heat = installer.watch_temperature("cell temperature", cells);
  installer.rate("highest temperature", heat, cell.discharge_window.high().si(), true, 60.0_s,
                 "temperatures at which the cell may be discharged");
  installer.rate("lowest temperature", heat, cell.discharge_window.low().si(), false, 60.0_s,
                 "temperatures at which the cell may be discharged");
}

}  // namespace tideover::part

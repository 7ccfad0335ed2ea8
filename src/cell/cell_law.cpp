#include "cell/cell_law.hpp"

#include <algorithm>
#include <cmath>

namespace tideover::cell {

namespace {

constexpr double reference_k = 298.15;  ///< 25 degC
constexpr double ice_k = 273.15;
constexpr double longest_rest_s = 60.0;

/// Towards `target`, by the share that `e` has not kept.
double relaxed(double from, double target, double e) { return from * e + target * (1.0 - e); }

}  // namespace

CellLaw law_of(const part::Cell& cell) {
  CellLaw law;
  law.curves = part::curves_of(cell);
  law.capacity_c = cell.capacity.si();
  law.arrhenius_k = std::log(cell.cold_factor.si()) / (1.0 / ice_k - 1.0 / reference_k);
  law.quick_ohm = cell.quick_resistance.si();
  law.quick_s = cell.quick_time.si();
  law.slow_ohm = cell.slow_resistance.si();
  law.slow_s = cell.slow_time.si();
  law.gap_v = cell.branch_gap.si();
  law.turn_share = cell.branch_turn.si();
  law.side_share = 1.0 - cell.coulombic_efficiency.si();
  law.heat_j_per_k = cell.heat_capacity.si();
  law.to_air_k_per_w = cell.to_air.si();
  return law;
}

double resistance_factor(const CellLaw& law, const CellState& state) {
  return law.curves.resistance_ratio(state.charge_share) *
         std::exp(law.arrhenius_k * (1.0 / state.temperature_k - 1.0 / reference_k));
}

namespace {

/// Voltage at no current.
double inner_v(const CellLaw& law, const CellState& state) {
  return law.curves.rest_v(state.charge_share) + 0.5 * law.gap_v * state.branch + state.quick_v +
         state.slow_v;
}

double series_ohm(const CellLaw& law, const CellState& state) {
  return law.curves.half_charge_ohm * resistance_factor(law, state);
}

}  // namespace

double terminal_v(const CellLaw& law, const CellState& state, double current_a) {
  return inner_v(law, state) + current_a * series_ohm(law, state);
}

std::optional<double> current_at_power_a(const CellLaw& law, const CellState& state,
                                         double power_w) {
  // u i + r i^2 = p, the root that goes to p / u.
  const double u = inner_v(law, state);
  const double r = series_ohm(law, state);
  const double root = u * u + 4.0 * r * power_w;
  if (u <= 0.0 || root < 0.0) return std::nullopt;
  return 2.0 * power_w / (u + std::sqrt(root));
}

double current_at_voltage_a(const CellLaw& law, const CellState& state, double voltage_v) {
  return (voltage_v - inner_v(law, state)) / series_ohm(law, state);
}

void advance(const CellLaw& law, CellState& state, double current_a, double dt_s, double air_k) {
  const double factor = resistance_factor(law, state);
  const double rest_v = law.curves.rest_v(state.charge_share);
  const double before_v = terminal_v(law, state, current_a);
  const double gained_a = current_a > 0.0 ? current_a * (1.0 - law.side_share) : current_a;
  const double half_gap_v = 0.5 * law.gap_v * state.branch;

  const double quick_e = std::exp(-dt_s / (factor * law.quick_s));
  const double slow_e = std::exp(-dt_s / (factor * law.slow_s));
  state.quick_v = relaxed(state.quick_v, current_a * law.quick_ohm * factor, quick_e);
  state.slow_v = relaxed(state.slow_v, current_a * law.slow_ohm * factor, slow_e);
  if (current_a != 0.0) {
    const double moved_share = std::fabs(current_a) * dt_s / law.capacity_c;
    state.branch = relaxed(state.branch, std::copysign(1.0, current_a),
                           std::exp(-moved_share / law.turn_share));
  }
  state.charge_share += gained_a * dt_s / law.capacity_c;

  // What the terminals take in beyond what the rest voltage stores; the gap's loss is its own.
  const double lost_w =
      std::max(0.0, current_a * (before_v - rest_v - half_gap_v)) + half_gap_v * current_a;
  const double settled_k = air_k + std::max(0.0, lost_w) * law.to_air_k_per_w;
  const double heat_e = std::exp(-dt_s / (law.heat_j_per_k * law.to_air_k_per_w));
  state.temperature_k = relaxed(state.temperature_k, settled_k, heat_e);
}

double longest_step_s(const CellLaw& law, double current_a) {
  const double quick_s = std::max(0.2 * law.quick_s, 0.05);
  if (current_a == 0.0) return longest_rest_s;
  return std::min({quick_s, 1e-3 * law.capacity_c / std::fabs(current_a), longest_rest_s});
}

}  // namespace tideover::cell

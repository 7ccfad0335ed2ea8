/// One cell by itself, driven by a stated current or power: the law of part/pack/cell_group.hpp
/// without a circuit around it, so that hundreds of thousands of samples cost milliseconds.
///
///     v = E(z) + G/2 h + v_1 + v_2 + i R f(z, T)          i charges
///     v_k -> v_k e + i r_k f (1 - e),   e = exp(-dt / (f tau_k))     exact while i and f stand
///     still C T' = loss - (T - air) / W
///
/// The equations and their sources are those of the pack's; a test holds the two against each
/// other. Self-discharge is left out: a test on the bench lasts days at most.
#pragma once

#include <optional>

#include "part/pack/cell.hpp"
#include "part/pack/cell_curves.hpp"

namespace tideover::cell {

struct CellLaw {
  part::CellCurves curves;
  double capacity_c = 3600.0;
  double arrhenius_k = 0.0;
  double quick_ohm = 0.0;
  double quick_s = 1.0;
  double slow_ohm = 0.0;
  double slow_s = 1.0;
  double gap_v = 0.0;
  double turn_share = 0.03;
  double side_share = 0.0;  ///< of a charging current that is lost
  double heat_j_per_k = 45.0;
  double to_air_k_per_w = 21.0;
};

/// Of a cell without contradictions.
[[nodiscard]] CellLaw law_of(const part::Cell& cell);

struct CellState {
  double charge_share = 1.0;  ///< z
  double branch = 0.0;        ///< h, -1 to 1
  double quick_v = 0.0;
  double slow_v = 0.0;
  double temperature_k = 298.15;
};

/// f(z, T): all resistances over those at half charge and 25 degC.
[[nodiscard]] double resistance_factor(const CellLaw& law, const CellState& state);
/// Voltage while `current_a` flows.
[[nodiscard]] double terminal_v(const CellLaw& law, const CellState& state, double current_a);
/// Current that puts `power_w` into the cell (negative: takes it out); none if the cell cannot
/// give that much.
[[nodiscard]] std::optional<double> current_at_power_a(const CellLaw& law, const CellState& state,
                                                       double power_w);
/// Current at which the terminals stand at `voltage_v`.
[[nodiscard]] double current_at_voltage_a(const CellLaw& law, const CellState& state,
                                          double voltage_v);
/// Lets `current_a` flow for `dt_s`, with air of `air_k` around. The resistances are taken as they
/// are at the start: keep the step short beside what changes them (longest_step_s).
void advance(const CellLaw& law, CellState& state, double current_a, double dt_s, double air_k);
/// As long as the charge moves by no more than 0.1 % and the quick pair by no more than a fifth of
/// its time: the voltage is then right within a tenth of a millivolt (a test shows it).
[[nodiscard]] double longest_step_s(const CellLaw& law, double current_a);

}  // namespace tideover::cell

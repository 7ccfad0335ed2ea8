/// One cell alone under a stated load, until its voltage falls to a limit or the load is over; and
/// one cell charged at a constant current, then a constant voltage.
#pragma once

#include <optional>
#include <vector>

#include "cell/cell_law.hpp"

namespace tideover::cell {

/// What is taken out, stretch by stretch: `amount[k]` from the end of the stretch before (the first
/// from 0) up to `until_s[k]`. Positive: discharge.
struct LoadProfile {
  enum class Of { Power, Current };
  Of of = Of::Power;            ///< W or A
  std::vector<double> until_s;  ///< rising, the first above 0
  std::vector<double> amount;

  [[nodiscard]] std::size_t size() const { return until_s.size(); }
};

/// One instant. Where the load changes, the voltage and current between the two sides, as a meter
/// reads a load that is the mean of a stretch.
struct RunPoint {
  double time_s = 0.0;
  double voltage_v = 0.0;
  double current_a = 0.0;  ///< positive: charges
  double temperature_k = 0.0;
  double charge_share = 0.0;
};

struct RunDown {
  enum class End { LimitReached, Collapsed, LoadOver };
  End end = End::LoadOver;
  double end_s = 0.0;           ///< when
  std::vector<RunPoint> trace;  ///< at the start, at the end of each stretch, at the end
  double taken_c = 0.0;         ///< charge and energy that left the terminals, less what came back
  double taken_j = 0.0;
};

struct RunDownTask {
  CellLaw law;
  LoadProfile load;
  double until_v = 2.5;
  double ambient_k = 298.15;
  CellState start;  ///< its temperature is taken as it is
};

[[nodiscard]] RunDown run_down(const RunDownTask& task);

/// From `start` at `current_a` (> 0) to `to_v`, then at `to_v` for `hold_s`.
struct ChargeTask {
  CellLaw law;
  double current_a = 1.0;
  double to_v = 4.2;
  double hold_s = 1800.0;
  double ambient_k = 298.15;
  CellState start;
};
struct Charging {
  double constant_current_s = 0.0;
  double constant_current_c = 0.0;  ///< put in at constant current
  double whole_c = 0.0;             ///< and with what the constant voltage added
  double hottest_k = 0.0;
};
[[nodiscard]] Charging charge_up(const ChargeTask& task);

/// Charge and energy a cell gives from full at a constant current until `until_v`.
[[nodiscard]] RunDown discharge_at(const CellLaw& law, double current_a, double until_v,
                                   double ambient_k);

}  // namespace tideover::cell

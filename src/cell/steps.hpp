/// What was done to a cell, recognised from its log: rests, constant currents, powers and voltages,
/// pulses.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "cell/log.hpp"

namespace tideover::cell {

struct Step {
  enum class Kind {
    Rest,  ///< no current but a shunt's offset
    ConstantCurrent,
    ConstantPower,
    ConstantVoltage,  ///< held while the current falls
    Pulse,            ///< a short constant current between two rests
    Varying,          ///< anything else
  };
  Kind kind = Kind::Rest;
  std::size_t section = 0;  ///< of the log
  std::size_t first = 0;    ///< first sample with the step's own current
  std::size_t end = 0;      ///< one past the last
  /// The steps of a section follow each other without holes in time. The time from the last sample
  /// before an edge belongs to the step behind it, but to the step before a rest where the log's
  /// current runs straight.
  double begin_s = 0.0;
  double end_s = 0.0;
  double charge_as = 0.0;       ///< put in; negative: taken out
  double energy_j = 0.0;        ///< the same
  double mean_current_a = 0.0;  ///< over time, positive charges
  double mean_power_w = 0.0;
  double mean_voltage_v = 0.0;
  double before_v = 0.0;  ///< voltage just before the step; that of its first sample if none
  double start_v = 0.0;   ///< at its first sample
  double end_v = 0.0;     ///< at its last
  double start_current_a = 0.0;
  double end_current_a = 0.0;
  std::optional<double> mean_temperature_c = {};  ///< of the case, if logged

  [[nodiscard]] double lasts_s() const { return end_s - begin_s; }
};

/// The steps of every section, in order; together they hold every sample once. Noise of about one
/// per cent of the current and samples thinned over logarithmic times are borne.
[[nodiscard]] std::vector<Step> find_steps(const Log& log);

/// One line: `Discharged at 2.90 A for 58 min, 2.80 Ah, 4.04 V to 2.50 V`.
[[nodiscard]] std::string sentence(const Step& step);

}  // namespace tideover::cell

/// A charger: a converter with a voltage limit and a current limit, each set by an adjustment.
///
/// Constant current, then constant voltage; it may end at a stated current and begin again below a
/// stated voltage, give up after a time, go gently into a very empty pack, and wait while it is too
/// cold. It takes from its input whatever its output power asks for, even if the adapter has not
/// got it.
/// Lithium cells burn: both limits must suit the pack, and the cell maker's sheet counts.
#pragma once

#include "part/converter/board.hpp"

namespace tideover::part {

/// What a charger is set to, for its control.
struct ChargePlan {
  double voltage_v = 0.0;
  double current_a = 0.0;
  double ends_a = 0.0;          ///< current at which it counts as full
  bool ends = false;            ///< turns itself off then
  double again_v = 0.0;         ///< begins again below
  double gentle_below_v = 0.0;  ///< 0: never
  double gentle_a = 0.0;
  double gives_up_s = 0.0;  ///< 0: never
  double cold_k = 0.0;
};

class Charger final : public ConverterBoard {
 public:
  Charger();
  [[nodiscard]] static const Description& describe();
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] std::unique_ptr<Part> clone() const override;
  [[nodiscard]] std::vector<FailureMode> failure_modes() const override;
  [[nodiscard]] std::vector<std::string> contradictions() const override;
  void install(Installer& installer) const override;
  [[nodiscard]] SetPoint set_point() const override;
  [[nodiscard]] ChargePlan plan() const;
  /// Its voltage limit, and the thresholds that are made from the same divider, times `factor`.
  void shift_voltage(double factor);
  /// Its current limit, and the currents that are made from the same shunt, times `factor`.
  void shift_current(double factor);

  quantity::Value<quantity::Volt> voltage;
  quantity::Value<quantity::Ampere> current;
  quantity::Value<quantity::Ampere> ends_at;           ///< 0: it never turns itself off
  quantity::Value<quantity::Volt> begins_again_below;  ///< 0: 5 % below its voltage
  quantity::Value<quantity::Ampere> full_below{quantity::Ampere::of_si(0.05)};
  quantity::Value<quantity::Volt> gentle_below;      ///< 0: no gentle start
  quantity::Value<quantity::Ampere> gentle_current;  ///< 0: a tenth of its current
  quantity::Value<quantity::Second> gives_up_after;  ///< 0: never
  quantity::Value<quantity::Temperature> waits_below{quantity::Temperature::of_celsius(-60.0)};
  quantity::Value<quantity::Ampere> back_drain{quantity::Ampere::of_si(1e-3)};
  quantity::Value<quantity::Ohm> output_resistance{quantity::Ohm::of_si(0.01)};
};

}  // namespace tideover::part

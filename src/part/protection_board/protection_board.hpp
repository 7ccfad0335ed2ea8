/// A protection board: the switch in a pack's minus line that keeps every group within its limits.
///
/// `b_minus`, `tap1` ... and `b_plus` go to the pack and measure its groups; `p_minus` is the minus
/// of the supply. Discharge and charge MOSFET stand in series in the one line, so that with one of
/// them off the other direction still flows, through a body diode.
#pragma once

#include "part/part.hpp"

namespace tideover::part {

/// What lets an empty pack discharge again; a charger always does.
enum class UnderVoltageRelease { Voltage, Charger, LoadRemoval };
/// What lets a full pack be charged again.
enum class OverVoltageRelease { Voltage, VoltageOrLoad };
/// What clears an over-current or a short circuit.
enum class FaultRelease { LoadRemoval, Charger, Waiting };
enum class Balances { Never, Always, WhileCharging };

class ProtectionBoard final : public Part {
 public:
  [[nodiscard]] static const Description& describe();
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] std::unique_ptr<Part> clone() const override;
  [[nodiscard]] std::vector<Terminal> terminals() const override;
  [[nodiscard]] Symbol symbol() const override;
  [[nodiscard]] std::vector<FailureMode> failure_modes() const override;
  [[nodiscard]] std::vector<TestPoint> test_points() const override;
  [[nodiscard]] std::vector<std::string> contradictions() const override;
  void install(Installer& installer) const override;

  int series = 1;
  quantity::Value<quantity::Volt> over_voltage{quantity::Volt::of_si(4.25)};
  quantity::Value<quantity::Second> over_voltage_delay{quantity::Second::of_si(1.0)};
  quantity::Value<quantity::Volt> over_voltage_release{quantity::Volt::of_si(4.10)};
  OverVoltageRelease over_voltage_released_by = OverVoltageRelease::VoltageOrLoad;
  quantity::Value<quantity::Volt> under_voltage{quantity::Volt::of_si(2.80)};
  quantity::Value<quantity::Second> under_voltage_delay{quantity::Second::of_si(0.1)};
  quantity::Value<quantity::Volt> under_voltage_release{quantity::Volt::of_si(3.00)};
  UnderVoltageRelease under_voltage_released_by = UnderVoltageRelease::Voltage;

  quantity::Value<quantity::Ampere> discharge_over_current{quantity::Ampere::of_si(30.0)};
  quantity::Value<quantity::Second> discharge_over_current_delay{quantity::Second::of_si(0.1)};
  quantity::Value<quantity::Ampere> charge_over_current{quantity::Ampere::of_si(15.0)};
  quantity::Value<quantity::Second> charge_over_current_delay{quantity::Second::of_si(0.1)};
  quantity::Value<quantity::Ampere> short_circuit{quantity::Ampere::of_si(100.0)};
  quantity::Value<quantity::Second> short_circuit_delay{quantity::Second::of_si(300e-6)};
  FaultRelease fault_released_by = FaultRelease::LoadRemoval;
  quantity::Value<quantity::Second> fault_wait{quantity::Second::of_si(10.0)};
  quantity::Value<quantity::Second> release_delay{quantity::Second::of_si(0.05)};

  quantity::Value<quantity::Ohm> path_resistance{quantity::Ohm::of_si(0.010)};
  quantity::Value<quantity::Volt> body_diode{quantity::Volt::of_si(0.75)};
  quantity::Value<quantity::Ohm> load_sense{quantity::Ohm::of_si(100e3)};
  quantity::Value<quantity::Ampere> drain{quantity::Ampere::of_si(20e-6)};
  quantity::Value<quantity::Ampere> drain_when_cut{quantity::Ampere::of_si(5e-6)};

  Balances balances = Balances::Never;
  quantity::Value<quantity::Volt> balance_start{quantity::Volt::of_si(4.20)};
  quantity::Value<quantity::Volt> balance_hysteresis{quantity::Volt::of_si(0.01)};
  quantity::Value<quantity::Ohm> balance_resistance{quantity::Ohm::of_si(68.0)};

  bool has_temperature_sensor = false;
  std::string sensor_on;  ///< part whose body the sensor sits on; empty: the board itself
  quantity::Span<quantity::Temperature> charge_window{quantity::Temperature::of_celsius(0.0),
                                                      quantity::Temperature::of_celsius(50.0)};
  quantity::Span<quantity::Temperature> discharge_window{quantity::Temperature::of_celsius(-25.0),
                                                         quantity::Temperature::of_celsius(70.0)};
  quantity::Value<quantity::Kelvin> temperature_hysteresis{quantity::Kelvin::of_si(5.0)};
  quantity::Value<quantity::Second> temperature_delay{quantity::Second::of_si(2.0)};

  quantity::Value<quantity::Ampere> rated{quantity::Ampere::of_si(15.0)};
  quantity::Value<quantity::Temperature> highest_temperature{
      quantity::Temperature::of_celsius(85.0)};
};

}  // namespace tideover::part

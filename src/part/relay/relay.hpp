/// A relay: the changeover device. Its coil hangs on a rail and its contacts follow the coil's
/// current, late.
///
/// A device behind it sees a sagging rail first: the coil lets go only at a fraction of its pick-up
/// voltage, and its suppression holds the current for a while longer. A relay held for days is a
/// hot relay: its coil has more ohms and needs more volts to pick up again.
#pragma once

#include "network/node.hpp"
#include "part/part.hpp"

namespace tideover::part {

/// What lies across the coil and takes its current when the supply is switched off.
enum class Suppression { None, Diode, Resistor, Zener };

class Relay final : public Part {
 public:
  Relay();
  [[nodiscard]] static const Description& describe();
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] std::unique_ptr<Part> clone() const override;
  [[nodiscard]] std::vector<Terminal> terminals() const override;
  [[nodiscard]] Symbol symbol() const override;
  [[nodiscard]] std::vector<FailureMode> failure_modes() const override;
  [[nodiscard]] std::vector<TestPoint> test_points() const override;
  [[nodiscard]] std::vector<std::string> contradictions() const override;
  void install(Installer& installer) const override;

  /// Values with their defaults filled in, at the reference temperature.
  [[nodiscard]] quantity::Volt pick_up_cold() const;
  [[nodiscard]] quantity::Volt release_cold() const;
  [[nodiscard]] quantity::Volt coil_limit() const;
  [[nodiscard]] quantity::Henry coil_inductance() const;
  /// Coil currents at which the armature moves; they do not depend on temperature.
  [[nodiscard]] quantity::Ampere pick_up_current() const;
  [[nodiscard]] quantity::Ampere release_current() const;
  /// Voltage at the coil itself that picks up a coil at `coil`.
  [[nodiscard]] quantity::Volt pick_up_at(quantity::Temperature coil) const;
  [[nodiscard]] quantity::Ohm resistance_at(quantity::Temperature coil) const;

  quantity::Value<quantity::Volt> coil_rated{quantity::Volt::of_si(12.0)};
  quantity::Value<quantity::Ohm> coil_resistance;
  quantity::Value<quantity::Temperature> reference{quantity::Temperature::of_celsius(23.0)};
  quantity::Value<quantity::Henry> inductance;   ///< 0: L/R of 2 ms
  quantity::Value<quantity::Volt> pick_up;       ///< 0: 75 % of coil_rated
  quantity::Value<quantity::Volt> release;       ///< 0: 10 % of coil_rated
  quantity::Value<quantity::Volt> coil_highest;  ///< 0: 110 % of coil_rated
  quantity::Value<quantity::Temperature> coil_hottest{quantity::Temperature::of_celsius(105.0)};
  Suppression suppression = Suppression::None;
  quantity::Value<quantity::Volt> avalanche{quantity::Volt::of_si(300.0)};
  quantity::Value<quantity::Volt> zener{quantity::Volt::of_si(24.0)};
  quantity::Value<quantity::Ohm> suppression_resistor{quantity::Ohm::of_si(1000.0)};
  int series_diodes = 0;
  quantity::Value<quantity::Ohm> series_resistor{quantity::Ohm::of_si(0.0)};
  int poles = 1;
  quantity::Value<quantity::Second> travel{quantity::Second::of_si(4e-3)};
  quantity::Value<quantity::Second> return_travel{quantity::Second::of_si(3e-3)};
  quantity::Value<quantity::Second> bounce{quantity::Second::of_si(1.5e-3)};
  quantity::Value<quantity::Ohm> contact_resistance{quantity::Ohm::of_si(0.03)};
  quantity::Value<quantity::Ampere> contact_rated{quantity::Ampere::of_si(5.0)};
  quantity::Value<quantity::Volt> contact_voltage{quantity::Volt::of_si(30.0)};
  quantity::Value<quantity::KelvinPerWatt> winding_resistance{quantity::KelvinPerWatt::of_si(25.0)};
  quantity::Value<quantity::JoulePerKelvin> winding_heat{quantity::JoulePerKelvin::of_si(4.0)};

 private:
  [[nodiscard]] network::NodeId install_series(Installer& installer) const;
  void install_suppression(Installer& installer, network::NodeId coil) const;
  void install_contacts(Installer& installer, network::StateId coil_current) const;
  void watch_open_contacts(Installer& installer) const;
};

}  // namespace tideover::part

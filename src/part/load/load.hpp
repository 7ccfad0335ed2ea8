/// A load: a device that the supply carries through the outage.
///
/// It draws constant power, constant current or what a resistance draws, in stretches of a
/// repeating profile; it accepts a range of voltage, rides through short dips, and after a longer
/// one starts afresh and serves again only when it has booted. Its signal ground, where it has
/// one, is a second way for its return current.
#pragma once

#include "part/part.hpp"

namespace tideover::part {

/// One stretch of a load's repeating profile.
struct ProfileStretch final : Described {
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] static const Description& describe();

  std::string name = "usual";  ///< stretches of one name follow each other round and round
  quantity::Value<quantity::Watt> draws;
  quantity::Value<quantity::Second> lasts;
};

class Load final : public Part {
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

  /// Mean power of the profile named `word`, or of the steady draw.
  [[nodiscard]] quantity::Watt mean_power(std::string_view word) const;

  Load() { where = Whereabouts::Outside; }
  quantity::Value<quantity::Watt> draws;
  quantity::Value<quantity::Ampere> draws_current;
  quantity::Value<quantity::Ohm> draws_resistance;
  std::vector<ProfileStretch> profile;
  quantity::Span<quantity::Volt> accepts;
  quantity::Value<quantity::Volt> resistive_below;  ///< 0: six tenths of the lowest accepted
  quantity::Value<quantity::Second> rides{quantity::Second::of_si(0.0)};
  quantity::Value<quantity::Second> boot{quantity::Second::of_si(0.0)};
  quantity::Value<quantity::Farad> input_capacitance{quantity::Farad::of_si(220e-6)};
  quantity::Value<quantity::Ohm> input_esr{quantity::Ohm::of_si(0.05)};
  /// When it is off, at its lowest accepted voltage; a resistance.
  quantity::Value<quantity::Ampere> off_draw{quantity::Ampere::of_si(1e-3)};
  quantity::Value<quantity::Ohm> signal_resistance{quantity::Ohm::of_si(0.5)};
};

}  // namespace tideover::part

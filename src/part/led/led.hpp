/// A light-emitting diode with its series resistor.
#pragma once

#include "part/part.hpp"
#include "part/preferred_value.hpp"

namespace tideover::part {

class Led final : public Part {
 public:
  [[nodiscard]] static const Description& describe();
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] std::unique_ptr<Part> clone() const override;
  [[nodiscard]] std::vector<Terminal> terminals() const override;
  [[nodiscard]] Symbol symbol() const override;
  [[nodiscard]] std::vector<FailureMode> failure_modes() const override;
  [[nodiscard]] std::vector<TestPoint> test_points() const override;
  void install(Installer& installer) const override;

  quantity::Value<quantity::Volt> forward{quantity::Volt::of_si(2.0)};
  quantity::Value<quantity::Ohm> series;
  quantity::Value<quantity::Ampere> rated{quantity::Ampere::of_si(0.02)};
  quantity::Value<quantity::Watt> series_rated{quantity::Watt::of_si(0.25)};
};

/// The preferred resistor nearest to the one that lets `current` through at `supply`.
[[nodiscard]] quantity::Ohm led_series_resistor(quantity::Volt supply, quantity::Volt forward,
                                                quantity::Ampere current, Series series);

}  // namespace tideover::part

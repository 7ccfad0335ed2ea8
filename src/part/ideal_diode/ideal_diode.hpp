/// An ideal diode: a MOSFET whose controller lets current through one way at a drop of millivolts.
#pragma once

#include "part/part.hpp"

namespace tideover::part {

class IdealDiode final : public Part {
 public:
  IdealDiode();
  [[nodiscard]] static const Description& describe();
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] std::unique_ptr<Part> clone() const override;
  [[nodiscard]] std::vector<Terminal> terminals() const override;
  [[nodiscard]] Symbol symbol() const override;
  [[nodiscard]] std::vector<FailureMode> failure_modes() const override;
  [[nodiscard]] std::vector<TestPoint> test_points() const override;
  void install(Installer& installer) const override;

  quantity::Value<quantity::Ohm> on_resistance{quantity::Ohm::of_si(0.01)};
  quantity::Value<quantity::Volt> forward_drop{quantity::Volt::of_si(0.02)};
  quantity::Value<quantity::Ampere> reverse_threshold{quantity::Ampere::of_si(0.5)};
  quantity::Value<quantity::Second> turn_off{quantity::Second::of_si(1e-6)};
  quantity::Value<quantity::Second> turn_on{quantity::Second::of_si(100e-6)};
  quantity::Value<quantity::Ampere> own_draw{quantity::Ampere::of_si(0.0)};
  quantity::Value<quantity::Ampere> rated{quantity::Ampere::of_si(5.0)};
  quantity::Value<quantity::Volt> reverse_voltage{quantity::Volt::of_si(40.0)};
  quantity::Value<quantity::Temperature> hottest{quantity::Temperature::of_celsius(125.0)};
};

}  // namespace tideover::part

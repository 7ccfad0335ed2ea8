/// A resistor: a bleeder, a pre-charge resistor, a drop for a coil.
#pragma once

#include "part/part.hpp"

namespace tideover::part {

class Resistor final : public Part {
 public:
  Resistor();
  [[nodiscard]] static const Description& describe();
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] std::unique_ptr<Part> clone() const override;
  [[nodiscard]] std::vector<Terminal> terminals() const override;
  [[nodiscard]] Symbol symbol() const override;
  [[nodiscard]] std::vector<FailureMode> failure_modes() const override;
  [[nodiscard]] std::vector<TestPoint> test_points() const override;
  void install(Installer& installer) const override;

  quantity::Value<quantity::Ohm> resistance;
  quantity::Value<quantity::Watt> rated{quantity::Watt::of_si(0.25)};
  quantity::Value<quantity::Temperature> hottest{quantity::Temperature::of_celsius(155.0)};
};

}  // namespace tideover::part

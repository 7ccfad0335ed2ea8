/// A capacitor of its own: hold-up at a converter's input, smoothing on a rail.
#pragma once

#include "part/part.hpp"

namespace tideover::part {

enum class CapacitorMake { Electrolytic, Polymer, Film, Ceramic };

class Capacitor final : public Part {
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

  /// After the stated share of its life; both change in proportion to it.
  [[nodiscard]] quantity::Farad aged_capacitance() const;
  [[nodiscard]] quantity::Ohm aged_esr() const;
  /// Life at a body temperature: twice as long for every `life_doubles` below the rated one.
  /// Electrolytic capacitors; after Arrhenius.
  [[nodiscard]] quantity::Second life_at(quantity::Temperature body) const;

  CapacitorMake make = CapacitorMake::Electrolytic;
  quantity::Value<quantity::Farad> capacitance;
  quantity::Value<quantity::Ohm> esr{quantity::Ohm::of_si(0.05)};
  quantity::Value<quantity::Ampere> leakage{quantity::Ampere::of_si(20e-6)};
  quantity::Value<quantity::Volt> rated;
  quantity::Value<quantity::Ratio> used{quantity::Ratio::of_si(0.0)};
  quantity::Value<quantity::Ratio> loses{quantity::Ratio::of_si(0.2)};
  quantity::Value<quantity::Ratio> esr_grows{quantity::Ratio::of_si(2.0)};
  quantity::Value<quantity::Second> life{quantity::Second::of_si(2000.0 * 3600.0)};
  quantity::Value<quantity::Temperature> life_temperature{quantity::Temperature::of_celsius(105.0)};
  quantity::Value<quantity::Kelvin> life_doubles{quantity::Kelvin::of_si(10.0)};
};

}  // namespace tideover::part

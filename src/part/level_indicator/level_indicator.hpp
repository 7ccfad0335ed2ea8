/// A charge indicator across the pack: what it shows is a voltage, what it costs is a steady draw.
#pragma once

#include "part/part.hpp"

namespace tideover::part {

/// One lamp of a bar.
struct IndicatorStep final : Described {
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] static const Description& describe();

  quantity::Value<quantity::Volt> above;
  quantity::Value<quantity::Ampere> draws;
};

class LevelIndicator final : public Part {
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

  quantity::Value<quantity::Ampere> draws{quantity::Ampere::of_si(0.005)};
  quantity::Value<quantity::Volt> resistive_below{quantity::Volt::of_si(3.0)};
  std::vector<IndicatorStep> steps;
  quantity::Value<quantity::Volt> highest{quantity::Volt::of_si(60.0)};
};

}  // namespace tideover::part

/// A surge clamp: nothing below its threshold, a small resistance above it.
#pragma once

#include "part/part.hpp"

namespace tideover::part {

/// One way: it conducts like a diode when poled the wrong way. Both ways: it clamps either
/// polarity.
enum class ClampWays { One, Both };

class SurgeClamp final : public Part {
 public:
  SurgeClamp();
  [[nodiscard]] static const Description& describe();
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] std::unique_ptr<Part> clone() const override;
  [[nodiscard]] std::vector<Terminal> terminals() const override;
  [[nodiscard]] Symbol symbol() const override;
  [[nodiscard]] std::vector<FailureMode> failure_modes() const override;
  [[nodiscard]] std::vector<TestPoint> test_points() const override;
  [[nodiscard]] std::vector<std::string> contradictions() const override;
  void install(Installer& installer) const override;

  quantity::Value<quantity::Volt> threshold;
  quantity::Value<quantity::Volt> stand_off;  ///< 0: 86 % of the threshold
  quantity::Value<quantity::Ohm> clamping_resistance{quantity::Ohm::of_si(0.3)};
  quantity::Value<quantity::Ampere> leakage{quantity::Ampere::of_si(5e-6)};
  ClampWays ways = ClampWays::One;
  quantity::Value<quantity::Watt> peak_power{quantity::Watt::of_si(600.0)};
  quantity::Value<quantity::Watt> steady_power{quantity::Watt::of_si(1.0)};
};

}  // namespace tideover::part

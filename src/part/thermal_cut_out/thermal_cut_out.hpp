/// A thermal cut-out: a contact in series with what it protects, opened by heat.
#pragma once

#include <string>

#include "part/part.hpp"

namespace tideover::part {

class ThermalCutOut final : public Part {
 public:
  ThermalCutOut();
  [[nodiscard]] static const Description& describe();
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] std::unique_ptr<Part> clone() const override;
  [[nodiscard]] std::vector<Terminal> terminals() const override;
  [[nodiscard]] Symbol symbol() const override;
  [[nodiscard]] std::vector<FailureMode> failure_modes() const override;
  [[nodiscard]] std::vector<TestPoint> test_points() const override;
  [[nodiscard]] std::vector<std::string> contradictions() const override;
  void install(Installer& installer) const override;

  /// Temperature at which it closes again; meaningless for a one-shot.
  [[nodiscard]] quantity::Temperature resets_at() const;

  quantity::Value<quantity::Temperature> opens{quantity::Temperature::of_celsius(70.0)};
  quantity::Value<quantity::Temperature> resets;  ///< not given: 20 K below `opens`
  bool one_shot = false;
  std::string sits_on;  ///< name of a part; empty, or a part without a body: it feels its own air
  quantity::Value<quantity::Ohm> resistance{quantity::Ohm::of_si(0.02)};
  quantity::Value<quantity::Ampere> rated{quantity::Ampere::of_si(5.0)};
  quantity::Value<quantity::Volt> rated_voltage{quantity::Volt::of_si(24.0)};
};

}  // namespace tideover::part

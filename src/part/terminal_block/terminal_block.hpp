/// A terminal block: ways w1 to wN that are joined to one bar.
#pragma once

#include "part/part.hpp"

namespace tideover::part {

class TerminalBlock final : public Part {
 public:
  [[nodiscard]] static const Description& describe();
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] std::unique_ptr<Part> clone() const override;
  [[nodiscard]] std::vector<Terminal> terminals() const override;
  [[nodiscard]] Symbol symbol() const override;
  [[nodiscard]] std::vector<FailureMode> failure_modes() const override;
  [[nodiscard]] std::vector<TestPoint> test_points() const override;
  void install(Installer& installer) const override;

  int ways = 4;
  quantity::Value<quantity::Ohm> resistance{quantity::Ohm::of_si(0.001)};
  quantity::Value<quantity::Ampere> rated{quantity::Ampere::of_si(10.0)};
};

}  // namespace tideover::part

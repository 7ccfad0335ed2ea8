/// A plug and its socket: pairs in1, out1 ... inN, outN that part together.
#pragma once

#include "part/part.hpp"

namespace tideover::part {

class Connector final : public Part {
 public:
  [[nodiscard]] static const Description& describe();
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] std::unique_ptr<Part> clone() const override;
  [[nodiscard]] std::vector<Terminal> terminals() const override;
  [[nodiscard]] Symbol symbol() const override;
  [[nodiscard]] std::vector<FailureMode> failure_modes() const override;
  [[nodiscard]] std::vector<TestPoint> test_points() const override;
  void install(Installer& installer) const override;

  int pairs = 2;
  bool plugged_in = true;
  quantity::Value<quantity::Ohm> resistance{quantity::Ohm::of_si(0.008)};
  quantity::Value<quantity::Ampere> rated{quantity::Ampere::of_si(5.0)};
};

}  // namespace tideover::part

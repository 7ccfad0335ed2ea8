/// A switch: one or more ganged poles that join a common terminal to one of several ways.
#pragma once

#include "part/part.hpp"

namespace tideover::part {

class Switch final : public Part {
 public:
  [[nodiscard]] static const Description& describe();
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] std::unique_ptr<Part> clone() const override;
  /// "common", "way1", "way2" of a single pole; "common_a", "way1_a", "common_b" of several.
  [[nodiscard]] std::vector<Terminal> terminals() const override;
  [[nodiscard]] Symbol symbol() const override;
  [[nodiscard]] std::vector<FailureMode> failure_modes() const override;
  [[nodiscard]] std::vector<TestPoint> test_points() const override;
  [[nodiscard]] std::vector<std::string> contradictions() const override;
  void install(Installer& installer) const override;

  int poles = 1;
  int ways = 1;
  bool has_off = true;  ///< position 0 joins nothing
  int start = 1;        ///< position before the run; 0 is off
  quantity::Value<quantity::Ohm> resistance{quantity::Ohm::of_si(0.02)};
  quantity::Value<quantity::Ampere> rated{quantity::Ampere::of_si(3.0)};

 private:
  [[nodiscard]] std::string terminal(std::string_view which, int pole) const;
};

}  // namespace tideover::part

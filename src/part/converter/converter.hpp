/// A converter: one voltage into another. Step-down, step-up, step-up-down or linear.
///
/// Regulated output with a current limit, soft start, drop-out, input lockout, input-current limit
/// and thermal shutdown. A step-down that does not block feeds its input from its output when the
/// input is gone; a step-up feeds its output from its input even when off.
#pragma once

#include "part/converter/board.hpp"

namespace tideover::part {

class Converter final : public ConverterBoard {
 public:
  [[nodiscard]] static const Description& describe();
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] std::unique_ptr<Part> clone() const override;
  [[nodiscard]] std::vector<FailureMode> failure_modes() const override;
  [[nodiscard]] std::vector<std::string> contradictions() const override;
  void install(Installer& installer) const override;
  [[nodiscard]] SetPoint set_point() const override;
  /// The voltage it is set to, times `factor` > 0, as far as its topology has it.
  void shift_output(double factor);

  quantity::Value<quantity::Volt> output;
  quantity::Value<quantity::Ampere> rated;
  quantity::Value<quantity::Ampere> limit;  ///< 0: half as much again as the rating
  quantity::Value<quantity::Ohm> output_resistance{quantity::Ohm::of_si(0.01)};
  quantity::Value<quantity::Ohm> output_leak{quantity::Ohm::of_si(20e3)};
};

}  // namespace tideover::part

/// A diode: silicon or Schottky, from one to three points of its datasheet's forward curve, or
/// from the numbers of its law.
#pragma once

#include <vector>

#include "base/result.hpp"
#include "part/diode/junction_fit.hpp"
#include "part/junction_material.hpp"
#include "part/part.hpp"

namespace tideover::part {

/// One point of a forward curve at the diode's `reference` temperature.
struct DiodePoint final : Described {
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] static const Description& describe();

  quantity::Value<quantity::Volt> voltage;
  quantity::Value<quantity::Ampere> current;
};

class Diode final : public Part {
 public:
  Diode();
  [[nodiscard]] static const Description& describe();
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] std::unique_ptr<Part> clone() const override;
  [[nodiscard]] std::vector<Terminal> terminals() const override;
  [[nodiscard]] Symbol symbol() const override;
  [[nodiscard]] std::vector<FailureMode> failure_modes() const override;
  [[nodiscard]] std::vector<TestPoint> test_points() const override;
  [[nodiscard]] std::vector<std::string> contradictions() const override;
  void install(Installer& installer) const override;

  /// The law of this diode: fitted to its points, else as stated, else typical of its material.
  [[nodiscard]] base::Result<Junction> junction() const;

  Material material = Material::Silicon;
  std::vector<DiodePoint> points;
  quantity::Value<quantity::Ratio> ideality;             ///< 0: typical of the material
  quantity::Value<quantity::Ampere> saturation_current;  ///< 0: typical, or from the points
  quantity::Value<quantity::Ohm> series_resistance;      ///< 0: typical, or from the points
  quantity::Value<quantity::Temperature> reference{quantity::Temperature::of_celsius(25.0)};
  quantity::Value<quantity::Ampere> rated{quantity::Ampere::of_si(1.0)};
  quantity::Value<quantity::Volt> reverse_voltage{quantity::Volt::of_si(40.0)};
  quantity::Value<quantity::Ampere> leakage;          ///< 0: typical of the material
  quantity::Value<quantity::Kelvin> leakage_doubles;  ///< 0: typical of the material
  quantity::Value<quantity::Temperature> hottest{quantity::Temperature::of_celsius(125.0)};
};

}  // namespace tideover::part

/// The box that holds the supply: how warm its air gets.
///
/// Box air gives heat to the walls (still air and radiation: what is in the box is taken to fill
/// the view of its walls at the temperature of the air), the walls give it to the ambient, and
/// openings let warm air rise out. A fan carries heat by a law of its own. No terminals.
#pragma once

#include "part/box/surface_film.hpp"
#include "part/part.hpp"

namespace tideover::part {

enum class BoxMaterial { Plastic, PaintedMetal, BareMetal };
/// Which face is covered and gives off no heat.
enum class BoxStanding { Free, OnTable, OnWall };

class Box final : public Part {
 public:
  [[nodiscard]] static const Description& describe();
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] std::unique_ptr<Part> clone() const override;
  [[nodiscard]] std::vector<Terminal> terminals() const override { return {}; }
  [[nodiscard]] Symbol symbol() const override;
  [[nodiscard]] std::vector<FailureMode> failure_modes() const override;
  [[nodiscard]] std::vector<std::string> contradictions() const override;
  void install(Installer& installer) const override;

  /// Heat capacity of the node of box air: the air itself, 1.2 kJ/(m3 K) of inner volume.
  [[nodiscard]] quantity::JoulePerKelvin air_heat() const;
  /// Heat capacity of the walls.
  [[nodiscard]] quantity::JoulePerKelvin wall_heat() const;
  /// The faces that give off heat.
  [[nodiscard]] BoxSurface surface() const;

  quantity::Value<quantity::Metre> width{quantity::Metre::of_si(0.20)};
  quantity::Value<quantity::Metre> height{quantity::Metre::of_si(0.12)};
  quantity::Value<quantity::Metre> depth{quantity::Metre::of_si(0.15)};
  quantity::Value<quantity::Metre> wall{quantity::Metre::of_si(0.0025)};
  BoxMaterial material = BoxMaterial::Plastic;
  quantity::Value<quantity::Ratio> emissivity;  ///< not given: that of the material
  BoxStanding stands = BoxStanding::OnTable;
  quantity::Value<quantity::SquareMetre> vent_low;
  quantity::Value<quantity::SquareMetre> vent_high;
  quantity::Value<quantity::Metre> vent_apart;
  quantity::Value<quantity::Ratio> vent_discharge{quantity::Ratio::of_si(0.6)};
  quantity::Value<quantity::Temperature> touch_limit{quantity::Temperature::of_celsius(48.0)};
};

}  // namespace tideover::part

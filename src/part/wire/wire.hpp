/// The conductor of a lead: size, length, make and colour; what it resists, carries and stands.
#pragma once

#include <string>
#include <vector>

#include "part/part.hpp"
#include "part/wire/ampacity.hpp"
#include "part/wire/conductor.hpp"

namespace tideover::part {

/// Not a part: it has no terminals of its own. A lead of the build sheet is a wire between two
/// terminals; both its ends together are the `joints`.
class Wire : public Described {
 public:
  [[nodiscard]] static const Description& describe();
  [[nodiscard]] const Description& description() const override { return describe(); }
  /// As Part::contradictions().
  [[nodiscard]] std::vector<std::string> contradictions() const;

  /// Of this one conductor and its two ends, the conductor at `conductor`. For a drop there and
  /// back both leads of the loop count.
  [[nodiscard]] quantity::Ohm resistance(quantity::Temperature conductor) const;
  /// What it may carry for good in air of that temperature, and by which table.
  [[nodiscard]] Ampacity ampacity(quantity::Temperature ambient) const;
  /// Temperature it reaches at a lasting current, from its ampacity and the square law of heating.
  [[nodiscard]] quantity::Temperature temperature_at(quantity::Ampere current,
                                                     quantity::Temperature ambient) const;
  /// Let-through energy it stands, starting at the lasting limit of its insulation.
  [[nodiscard]] quantity::AmpereSquaredSecond withstand() const;

  quantity::Value<quantity::SquareMetre> size;
  quantity::Value<quantity::Metre> length;
  std::string colour;  ///< IEC 60757 letters; empty: not stated
  bool protective = false;
  ConductorMaterial material = ConductorMaterial::Copper;
  Strand strand = Strand::Flexible;
  bool tinned = false;
  Whereabouts where = Whereabouts::Box;
  Laid laid = Laid::Bundled;
  int loaded_beside = 3;
  /// Name of one of ampacity_tables() or of the rule for any size; empty: the first that fits.
  std::string ampacity_table;
  quantity::Value<quantity::Temperature> insulation{quantity::Temperature::of_celsius(70.0)};
  quantity::Value<quantity::Ohm> joints{quantity::Ohm::of_si(0.001)};

 private:
  /// As if it were of copper.
  [[nodiscard]] Ampacity copper_ampacity(quantity::Temperature ambient) const;
};

}  // namespace tideover::part

/// A pack: groups of parallel cells in series, with a tap between each two groups.
///
/// Groups count from the minus end; `tap1` stands between group 1 and group 2. Every group keeps
/// its own charge; all share one temperature. Cells bundled in a pack cool worse than one alone:
/// N cells have the surface of one times N to the two thirds.
#pragma once

#include "part/pack/cell.hpp"
#include "part/part.hpp"

namespace tideover::part {

/// What is known of one group beyond the cell's row.
struct GroupState final : Described {
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] static const Description& describe();

  quantity::Value<quantity::Coulomb>
      capacity;                             ///< of the whole group; as the row says if not given
  quantity::Value<quantity::Ratio> charge;  ///< as the pack's if not given
};

class Pack final : public Part {
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

  /// The terminal below group `number` (1 to series) and the one above it.
  [[nodiscard]] std::string terminal_below(int number) const;
  [[nodiscard]] std::string terminal_above(int number) const;
  /// The same pack worn out: a need is judged with it and with the pack as it is.
  [[nodiscard]] std::unique_ptr<Pack> at_end_of_life() const;
  /// Capacity of a group as worn as `age` says.
  [[nodiscard]] quantity::Coulomb group_capacity(int number) const;
  /// Resistances now over those of the new cell.
  [[nodiscard]] double resistance_factor() const;
  /// Of all cells, and from them to the air.
  [[nodiscard]] quantity::JoulePerKelvin heat_capacity() const;
  [[nodiscard]] quantity::KelvinPerWatt to_air() const;
  /// The body is the cells with their holder, as warm as they are: `body_heat` is the holder's.
  [[nodiscard]] quantity::JoulePerKelvin heat_of_body() const override;
  [[nodiscard]] quantity::KelvinPerWatt path_of_body() const override { return to_air(); }

  Pack() {
    body_heat = quantity::Value<quantity::JoulePerKelvin>{quantity::JoulePerKelvin::of_si(30.0)};
  }
  Cell cell;
  int series = 1;
  int parallel = 1;
  std::vector<GroupState> groups;  ///< empty, or one a group
  quantity::Value<quantity::Ratio> charge{quantity::Ratio::of_si(1.0)};
  quantity::Value<quantity::Ratio> age{quantity::Ratio::of_si(0.0)};
  quantity::Value<quantity::Ohm> link_resistance{quantity::Ohm::of_si(1e-3)};
};

}  // namespace tideover::part

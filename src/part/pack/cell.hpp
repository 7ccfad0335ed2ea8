/// One cell as its row on the shelf describes it, or one block of cells in a common case.
///
/// `rest` is the voltage after a long rest, midway between the branch reached by charging and the
/// one reached by discharging, against the share of `capacity` that is left.
#pragma once

#include <string>
#include <vector>

#include "part/description.hpp"
#include "quantity/units.hpp"

namespace tideover::part {

enum class Chemistry { Nmc, Lfp, LeadAcid };

/// One point of the rest voltage against charge.
struct RestPoint final : Described {
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] static const Description& describe();

  quantity::Value<quantity::Ratio> soc;
  quantity::Value<quantity::Volt> voltage;
};

/// One point of the series resistance at 25 degC against charge.
struct ResistancePoint final : Described {
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] static const Description& describe();

  quantity::Value<quantity::Ratio> soc;
  quantity::Value<quantity::Ohm> resistance;
};

struct Cell final : Described {
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] static const Description& describe();
  /// What is wrong between the values, each a sentence that begins with the key it concerns.
  [[nodiscard]] std::vector<std::string> contradictions() const;

  Chemistry chemistry = Chemistry::Nmc;
  quantity::Value<quantity::Coulomb> capacity;
  quantity::Value<quantity::Second> rated_hours{quantity::Second::of_si(5.0 * 3600.0)};
  quantity::Value<quantity::Ratio> rate_exponent{quantity::Ratio::of_si(1.0)};
  std::vector<RestPoint> rest;
  quantity::Value<quantity::Volt> branch_gap{quantity::Volt::of_si(0.02)};
  quantity::Value<quantity::Ratio> branch_turn{quantity::Ratio::of_si(0.03)};
  std::vector<ResistancePoint> resistance;
  quantity::Value<quantity::Ratio> cold_factor{quantity::Ratio::of_si(2.0)};
  quantity::Value<quantity::Ohm> quick_resistance{quantity::Ohm::of_si(0.012)};
  quantity::Value<quantity::Second> quick_time{quantity::Second::of_si(5.0)};
  quantity::Value<quantity::Ohm> slow_resistance{quantity::Ohm::of_si(0.0)};
  quantity::Value<quantity::Second> slow_time{quantity::Second::of_si(200.0)};
  quantity::Value<quantity::Ratio> self_discharge{quantity::Ratio::of_si(0.02)};
  quantity::Value<quantity::Kelvin> self_discharge_doubles{quantity::Kelvin::of_si(10.0)};
  quantity::Value<quantity::Ratio> coulombic_efficiency{quantity::Ratio::of_si(0.998)};
  quantity::Value<quantity::Volt> charge_to;
  quantity::Value<quantity::Volt> discharge_to;
  quantity::Value<quantity::Ampere> charge_current;
  quantity::Value<quantity::Ampere> discharge_current;
  quantity::Span<quantity::Temperature> charge_window{quantity::Temperature::of_celsius(0.0),
                                                      quantity::Temperature::of_celsius(45.0)};
  quantity::Span<quantity::Temperature> discharge_window{quantity::Temperature::of_celsius(-20.0),
                                                         quantity::Temperature::of_celsius(60.0)};
  quantity::Value<quantity::JoulePerKelvin> heat_capacity{quantity::JoulePerKelvin::of_si(45.0)};
  quantity::Value<quantity::KelvinPerWatt> to_air{quantity::KelvinPerWatt::of_si(21.0)};
  quantity::Value<quantity::Ratio> end_of_life_capacity{quantity::Ratio::of_si(0.8)};
  quantity::Value<quantity::Ratio> end_of_life_resistance{quantity::Ratio::of_si(1.5)};
  quantity::Value<quantity::Second> life;  ///< until then, in this use; 0: not known
};

}  // namespace tideover::part

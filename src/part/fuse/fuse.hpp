/// A fuse: opens for good when too much current has flowed too long.
///
/// A fuse protects the lead behind it, not the device. What it can break at direct current must be
/// stated: a breaking capacity at alternating current implies none.
#pragma once

#include <optional>
#include <vector>

#include "part/fuse/fuse_curve.hpp"
#include "part/part.hpp"

namespace tideover::part {

/// A gate stated with the part: between `at_least` and `at_most` at `multiple` times rated current.
struct FuseGate final : Described {
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] static const Description& describe();

  quantity::Value<quantity::Ratio> multiple;
  quantity::Value<quantity::Second> at_least;  ///< 0: no limit
  quantity::Value<quantity::Second> at_most;   ///< 0: it need not open
};

class Fuse final : public Part {
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

  /// Gates of its standard, or its own; empty if the standard has none for this rating.
  [[nodiscard]] std::vector<Gate> gates_in_force() const;
  [[nodiscard]] FuseCurve curve(FuseLaw which) const;
  /// Time in which a constant current opens it from cold; nothing if it carries it for good.
  /// Precondition: no contradictions.
  [[nodiscard]] std::optional<quantity::Second> opening_time(
      quantity::Ampere current, FuseLaw which,
      quantity::Temperature air = quantity::Temperature::of_celsius(23.0)) const;
  /// Rated current in air of this temperature.
  [[nodiscard]] quantity::Ampere rated_at(quantity::Temperature air) const;
  /// I2t that parts it within milliseconds: as stated, else that of the last gate's middle.
  [[nodiscard]] quantity::AmpereSquaredSecond melting_integral() const;
  /// Nothing: unknown.
  [[nodiscard]] std::optional<quantity::Ampere> breaking_capacity_dc() const;
  [[nodiscard]] quantity::Ohm cold_resistance() const;

  quantity::Value<quantity::Ampere> rated;
  FuseStyle style = FuseStyle::TimeLag;
  std::vector<FuseGate> gates;
  FuseLaw law = FuseLaw::Middle;
  quantity::Value<quantity::Ohm> resistance;  ///< 0: 0.1 V over rated current
  quantity::Value<quantity::Ratio> warm_share{quantity::Ratio::of_si(0.4)};
  quantity::Value<quantity::AmpereSquaredSecond> melting;  ///< 0: from the gates
  quantity::Value<quantity::Volt> rated_voltage;           ///< 0: unknown
  quantity::Value<quantity::Ampere> breaking_dc;           ///< not given: unknown
  quantity::Value<quantity::Ampere> breaking_ac;           ///< not given: unknown
  quantity::Value<quantity::PerKelvin> derating{quantity::PerKelvin::of_si(0.002)};
  bool blown = false;

 private:
  [[nodiscard]] MeltingIntegral melting_in_rated() const;
  void check_melting(const Gate& last, std::vector<std::string>& wrong) const;
  [[nodiscard]] double cooling_time_s() const;
};

}  // namespace tideover::part

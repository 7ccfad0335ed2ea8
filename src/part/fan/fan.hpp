/// A fan that blows the air of the box out.
#pragma once

#include "part/fan/fan_draw.hpp"
#include "part/part.hpp"

namespace tideover::part {

/// What was measured at one voltage.
struct FanPoint final : Described {
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] static const Description& describe();

  quantity::Value<quantity::Volt> voltage;
  quantity::Value<quantity::Ampere> current;
  quantity::Value<quantity::CubicMetrePerSecond> airflow;
};

/// What its air does.
enum class FanBlows { Through, Inside };

class Fan final : public Part {
 public:
  [[nodiscard]] static const Description& describe();
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] std::unique_ptr<Part> clone() const override;
  [[nodiscard]] std::vector<Terminal> terminals() const override;
  [[nodiscard]] Symbol symbol() const override;
  [[nodiscard]] std::vector<FailureMode> failure_modes() const override;
  [[nodiscard]] std::vector<TestPoint> test_points() const override;
  [[nodiscard]] std::vector<std::string> contradictions() const override;
  [[nodiscard]] std::vector<std::string> remarks() const override;
  void install(Installer& installer) const override;

  /// The law through what is known: two measured points fix its exponents, one measured point is
  /// put in place of the label, and without any the label counts.
  [[nodiscard]] FanDraw law() const;
  [[nodiscard]] quantity::Volt stall_voltage() const;
  /// Change of its noise against rated voltage, in decibels, by the fan laws; the speed is taken to
  /// go with the voltage. `voltage` above stall.
  [[nodiscard]] double noise_change_db(quantity::Volt voltage) const;

  quantity::Value<quantity::Volt> rated_voltage;
  quantity::Value<quantity::Ampere> rated_current;
  quantity::Value<quantity::CubicMetrePerSecond> airflow{
      quantity::CubicMetrePerSecond::of_si(9.0 / 3600.0)};
  std::vector<FanPoint> measured;
  quantity::Value<quantity::Volt> stall;  ///< not given: four tenths of the rated voltage
  quantity::Value<quantity::Ratio> current_exponent{quantity::Ratio::of_si(1.1)};
  quantity::Value<quantity::Ratio> breathes{quantity::Ratio::of_si(0.5)};
  FanBlows blows = FanBlows::Through;

 private:
  [[nodiscard]] double fitted_current_exponent() const;
  void set_airflow(FanDraw& draw) const;
};

}  // namespace tideover::part

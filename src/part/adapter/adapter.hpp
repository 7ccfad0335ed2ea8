/// A mains adapter: a bought, certified part, seen from its DC plug.
///
/// Mains to a regulated output behind a source resistance; overload as constant current, fold-back
/// or hiccup; after the mains has gone its stored energy carries it on for some milliseconds, then
/// its output capacitor decays into whatever hangs on it. Unplugged at the mains its output
/// capacitor stays on the rail, unplugged at the DC plug it does not.
#pragma once

#include "network/network.hpp"
#include "part/adapter/adapter_stage.hpp"
#include "part/part.hpp"
#include "part/resistance.hpp"

namespace tideover::part {

/// One measured point of an adapter's output, at its plug.
struct VoltAmperePoint final : Described {
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] static const Description& describe();

  quantity::Value<quantity::Volt> volts;
  quantity::Value<quantity::Ampere> amps;
};

/// What an adapter does when asked for more than it has.
enum class Overload { ConstantCurrent, FoldBack, Hiccup };

class Adapter final : public Part {
 public:
  Adapter();
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

  /// The law these values make.
  [[nodiscard]] AdapterStage stage() const;
  /// Resistance of its own lead and plug; the rest of the source resistance is its regulation.
  [[nodiscard]] quantity::Ohm own_lead() const;
  /// The current at which it gives way.
  [[nodiscard]] quantity::Ampere overload_current() const;

  quantity::Value<quantity::Volt> output;
  quantity::Value<quantity::Ampere> rated;
  quantity::Value<quantity::Ohm> source_resistance{quantity::Ohm::of_si(0.12)};
  quantity::Value<quantity::Ohm> lead_resistance;  ///< 0: four fifths of the source resistance
  Overload overload = Overload::ConstantCurrent;
  quantity::Value<quantity::Ampere> limit;  ///< 0: a quarter above the rating
  quantity::Value<quantity::Ratio> folds_back_to{quantity::Ratio::of_si(0.3)};
  quantity::Value<quantity::Ratio> hiccup_below{quantity::Ratio::of_si(0.7)};
  quantity::Value<quantity::Second> hiccup_on{quantity::Second::of_si(0.03)};
  quantity::Value<quantity::Second> hiccup_off{quantity::Second::of_si(1.0)};
  std::vector<VoltAmperePoint> curve;
  quantity::Value<quantity::Second> hold_up{quantity::Second::of_si(16e-3),
                                            quantity::Second::of_si(18e-3),
                                            quantity::Second::of_si(20e-3)};
  quantity::Value<quantity::Second> start_delay{quantity::Second::of_si(0.5)};
  quantity::Value<quantity::Second> rise{quantity::Second::of_si(0.02)};
  quantity::Value<quantity::Second> refill{quantity::Second::of_si(0.05)};
  quantity::Value<quantity::Farad> output_capacitance{quantity::Farad::of_si(680e-6)};
  quantity::Value<quantity::Ohm> output_esr{quantity::Ohm::of_si(0.03)};
  quantity::Value<quantity::Ampere> back_drain{quantity::Ampere::of_si(2e-3)};
  quantity::Value<quantity::Ratio> efficiency{quantity::Ratio::of_si(0.87)};
  quantity::Value<quantity::Watt> idle{quantity::Watt::of_si(0.1)};
  quantity::Value<quantity::Temperature> full_up_to{quantity::Temperature::of_celsius(70.0)};
  quantity::Value<quantity::Temperature> half_at{quantity::Temperature::of_celsius(90.0)};
  bool earthed = false;
  quantity::Value<quantity::Ohm> earth_resistance{quantity::Ohm::of_si(0.05)};

 private:
  [[nodiscard]] numeric::Table measured_curve() const;
  void add_contradictions_of_curve(std::vector<std::string>& wrong) const;
  void watch(Installer& installer, network::Handle<AdapterStage> stage_at,
             network::Handle<Resistance> plug, network::NodeId inside) const;
};

}  // namespace tideover::part

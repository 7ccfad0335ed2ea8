/// A reverse-polarity guard: what stands between a wrongly plugged supply and the build.
#pragma once

#include <functional>

#include "network/network.hpp"
#include "part/junction_law.hpp"
#include "part/part.hpp"

namespace tideover::part {

enum class GuardStyle {
  SeriesDiode,  ///< a Schottky diode in the supply: safe, simple, warm
  Mosfet,       ///< a P-channel MOSFET in the supply: little drop, but no diode
  Crowbar,      ///< a diode across the supply that blows the fuse before it
};

class PolarityGuard final : public Part {
 public:
  PolarityGuard();
  [[nodiscard]] static const Description& describe();
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] std::unique_ptr<Part> clone() const override;
  [[nodiscard]] std::vector<Terminal> terminals() const override;
  [[nodiscard]] Symbol symbol() const override;
  [[nodiscard]] std::vector<FailureMode> failure_modes() const override;
  [[nodiscard]] std::vector<TestPoint> test_points() const override;
  void install(Installer& installer) const override;

  GuardStyle style = GuardStyle::SeriesDiode;
  quantity::Value<quantity::Ohm> on_resistance{quantity::Ohm::of_si(0.02)};
  quantity::Value<quantity::Volt> gate_threshold{quantity::Volt::of_si(2.0)};
  quantity::Value<quantity::Ampere> rated{quantity::Ampere::of_si(3.0)};
  quantity::Value<quantity::Volt> reverse_voltage{quantity::Volt::of_si(40.0)};
  quantity::Value<quantity::Temperature> hottest{quantity::Temperature::of_celsius(125.0)};

 private:
  using Current = std::function<double(const network::Network&, const network::View&)>;
  /// Each yields the current from in to out.
  [[nodiscard]] Current install_diode(Installer& installer, const Junction& junction) const;
  [[nodiscard]] Current install_mosfet(Installer& installer) const;
  [[nodiscard]] Current install_crowbar(Installer& installer) const;
};

}  // namespace tideover::part

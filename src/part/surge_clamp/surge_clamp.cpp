#include "part/surge_clamp/surge_clamp.hpp"

#include "part/clamp_law.hpp"
#include "part/installer.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

/// A clamp for one polarity is a diode in the other: where its forward corner lies, and its
/// resistance there (typical, from memory).
constexpr ClampSide forward_side{0.7, 1.0 / 0.05};
/// Stand-off over breakdown voltage in the common series of clamp diodes (from memory).
constexpr double stand_off_share = 0.86;

}  // namespace

const Description& SurgeClamp::describe() {
  static const Description description =
      Describe<SurgeClamp>("surge-clamp", "Takes the top off surges on a rail.")
          .value("threshold", &SurgeClamp::threshold, {1.0_V, 1000.0_V},
                 "voltage at which it begins to conduct")
          .required()
          .value("stand_off", &SurgeClamp::stand_off, {0.0_V, 1000.0_V},
                 "highest working voltage, where only the leakage flows",
                 "86 % of the threshold: usual of clamp diodes, from memory")
          .value("clamping_resistance", &SurgeClamp::clamping_resistance, {1.0_mOhm, 100.0_Ohm},
                 "rise of its voltage per ampere above the threshold",
                 "typical of a 600 W clamp diode for 24 V, from memory")
          .value("leakage", &SurgeClamp::leakage, {0.0_A, 10.0_mA},
                 "current at the stand-off voltage", "typical of clamp diodes, from memory")
          .choice("ways", &SurgeClamp::ways, {"one", "both"}, "which polarities it clamps",
                  "assumed: one, with a diode's forward drop the other way")
          .value("peak_power", &SurgeClamp::peak_power, {1.0_W, 100000.0_W},
                 "power it takes for a millisecond", "usual class, 10/1000 us, from memory")
          .value("steady_power", &SurgeClamp::steady_power, {1.0_mW, 1000.0_W},
                 "power it takes for good", "typical of that class on short wires, from memory")
          .with(fields_of_warm_parts("typical of a 600 W clamp diode on short wires, from memory"))
          .with(fields_of_every_part())
          .done();
  return description;
}

SurgeClamp::SurgeClamp() {
  body_resistance = Value<KelvinPerWatt>{75.0_K_per_W};
  body_heat = Value<JoulePerKelvin>{0.5_J_per_K};
}

std::unique_ptr<Part> SurgeClamp::clone() const { return std::make_unique<SurgeClamp>(*this); }

std::vector<Terminal> SurgeClamp::terminals() const {
  return {{"plus", Role::Plus, true, "on the rail: the end with the ring, if it has one"},
          {"minus", Role::Minus, true, "on the return"}};
}

std::vector<FailureMode> SurgeClamp::failure_modes() const {
  std::vector<FailureMode> modes{
      {"shorted",
       "it is a short circuit on its rail: how such parts usually end",
       {bridged("plus", "minus")}},
      {"open", "it clamps nothing; nobody notices until a surge comes", {opened("plus")}}};
  if (ways == ClampWays::One) {
    modes.push_back({"reversed",
                     "it stands the wrong way round: a diode in forward direction on its rail",
                     {exchanged("plus", "minus")}});
  }
  return modes;
}

std::vector<TestPoint> SurgeClamp::test_points() const {
  return {{"plus", "minus", "rail voltage: below its stand-off"}};
}

std::vector<std::string> SurgeClamp::contradictions() const {
  if (stand_off.si() < threshold.si()) return {};
  return {"stand_off: must lie below the threshold"};
}

void SurgeClamp::install(Installer& installer) const {
  const auto plus = installer.node("plus");
  const auto minus = installer.node("minus");
  const double stands_v = stand_off.si() > 0.0 ? stand_off.si() : stand_off_share * threshold.si();
  const ClampSide side{threshold.si(), 1.0 / clamping_resistance.si()};
  const Clamp clamp{.above = side,
                    .below = ways == ClampWays::Both ? side : forward_side,
                    .leak_s = leakage.si() / stands_v};
  const auto law = installer.add(clamp, {plus, minus, installer.body()}, "clamp");

  const auto current_a = [=](const network::Network& net, const network::View& view) {
    return net.law(law).current(view.between(plus, minus));
  };
  const std::size_t voltage = installer.watch_voltage("voltage", plus, minus);
  installer.watch("current", Ampere::dimension, current_a);
  const std::size_t power = installer.watch(
      "power", Watt::dimension, [=](const network::Network& net, const network::View& view) {
        return current_a(net, view) * view.between(plus, minus);
      });
  installer.rate("stand-off voltage", voltage, stands_v, true, 1.0_ms, "as stated");
  installer.rate("peak power", power, peak_power.si(), true, 0.0_s, "as stated");
  installer.rate("steady power", power, steady_power.si(), true, 1.0_ms, "as stated");
}

}  // namespace tideover::part

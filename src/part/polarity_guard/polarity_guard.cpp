#include "part/polarity_guard/polarity_guard.hpp"

#include "part/installer.hpp"
#include "part/junction_material.hpp"
#include "part/polarity_guard/guard_channel.hpp"
#include "part/resistance.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

/// The through-going wire or track of a crowbar guard.
constexpr double through_ohm = 1e-3;

}  // namespace

const Description& PolarityGuard::describe() {
  static const Description description =
      Describe<PolarityGuard>("polarity-guard", "Keeps a wrongly poled supply out of the build.")
          .choice("style", &PolarityGuard::style, {"series-diode", "mosfet", "crowbar"},
                  "how it does it; a crowbar needs a fuse before it", "assumed")
          .value("on_resistance", &PolarityGuard::on_resistance, {0.1_mOhm, 10.0_Ohm},
                 "of its MOSFET, fully on", "typical, from memory")
          .value("gate_threshold", &PolarityGuard::gate_threshold, {0.3_V, 10.0_V},
                 "voltage at which its MOSFET begins to conduct", "typical, from memory")
          .value("rated", &PolarityGuard::rated, {10.0_mA, 500.0_A}, "rated current", "assumed")
          .value("reverse_voltage", &PolarityGuard::reverse_voltage, {1.0_V, 1000.0_V},
                 "highest supply voltage poled the wrong way", "assumed")
          .value("hottest", &PolarityGuard::hottest, {50.0_degC, 200.0_degC},
                 "highest junction temperature", "typical, from memory")
          .with(fields_of_warm_parts("typical of one power device on a small board, from memory"))
          .with(fields_of_every_part())
          .done();
  return description;
}

PolarityGuard::PolarityGuard() {
  body_resistance = Value<KelvinPerWatt>{45.0_K_per_W};
  body_heat = Value<JoulePerKelvin>{1.5_J_per_K};
}

std::unique_ptr<Part> PolarityGuard::clone() const {
  return std::make_unique<PolarityGuard>(*this);
}

std::vector<Terminal> PolarityGuard::terminals() const {
  return {{"in", Role::Plus, true, "from the supply"},
          {"out", Role::Plus, true, "to what it guards"},
          {"minus", Role::Minus, style != GuardStyle::SeriesDiode, "common return"}};
}

std::vector<FailureMode> PolarityGuard::failure_modes() const {
  const std::string unnoticed =
      "it guards nothing; nobody notices until the supply is poled wrongly";
  switch (style) {
    case GuardStyle::SeriesDiode:
      return {{"shorted", unnoticed, {bridged("in", "out")}},
              {"open", "no supply", {opened("in")}},
              {"reversed", "it stands the wrong way round: no supply", {exchanged("in", "out")}}};
    case GuardStyle::Mosfet:
      return {{"shorted", unnoticed, {bridged("in", "out")}},
              {"open", "no supply", {opened("in")}},
              {"gate return off",
               "its MOSFET stays off: its body diode carries the supply, with a drop and heat",
               {opened("minus")}}};
    case GuardStyle::Crowbar: break;
  }
  // Nothing but the crowbar's own diode hangs on its minus.
  return {{"shorted", "the fuse before it blows at once", {bridged("in", "minus")}},
          {"open", unnoticed, {opened("minus")}}};
}

std::vector<TestPoint> PolarityGuard::test_points() const {
  return {{"in", "out", "drop over the guard"}};
}

PolarityGuard::Current PolarityGuard::install_crowbar(Installer& installer) const {
  const auto in = installer.node("in");
  const auto out = installer.node("out");
  const auto body = installer.body();
  const auto wire = installer.add(WarmResistance{1.0 / through_ohm}, {in, out, body}, "through");
  installer.add(typical_junction(Material::Silicon), {installer.node("minus"), in, body},
                "crowbar");
  return [=](const network::Network& net, const network::View& view) {
    return net.law(wire).conductance_s * view.between(in, out);
  };
}

PolarityGuard::Current PolarityGuard::install_diode(Installer& installer,
                                                    const Junction& junction) const {
  const auto in = installer.node("in");
  const auto out = installer.node("out");
  const auto body = installer.body();
  const auto diode = installer.add(junction, {in, out, body}, "diode");
  return [=](const network::Network& net, const network::View& view) {
    return net.law(diode).current(view.between(in, out), view.potential(body));
  };
}

PolarityGuard::Current PolarityGuard::install_mosfet(Installer& installer) const {
  const auto in = installer.node("in");
  const auto out = installer.node("out");
  const auto minus = installer.node("minus");
  const auto channel = installer.add(
      GuardChannel{.on_s = 1.0 / on_resistance.si(), .threshold_v = gate_threshold.si()},
      {in, out, minus, installer.body()}, "channel");
  return [=, diode = install_diode(installer, body_diode())](const network::Network& net,
                                                             const network::View& view) {
    return net.law(channel).conductance(view.between(out, minus)) * view.between(in, out) +
           diode(net, view);
  };
}

void PolarityGuard::install(Installer& installer) const {
  Current current_a = style == GuardStyle::Crowbar ? install_crowbar(installer)
                      : style == GuardStyle::Mosfet
                          ? install_mosfet(installer)
                          : install_diode(installer, typical_junction(Material::Schottky));
  const std::size_t current = installer.watch("current", Ampere::dimension, std::move(current_a));
  const std::size_t reverse =
      installer.watch_voltage("reverse voltage", installer.node("minus"), installer.node("in"));
  const std::size_t heat = installer.watch_temperature("junction temperature", installer.body());
  installer.rate("rated current", current, rated.si(), true, 10.0_ms, "as stated");
  if (style != GuardStyle::SeriesDiode) {
    installer.rate("reverse voltage", reverse, reverse_voltage.si(), true, 0.0_s, "as stated");
  }
  installer.rate("junction temperature", heat, hottest.si(), true, 0.0_s, "as stated");
}

}  // namespace tideover::part

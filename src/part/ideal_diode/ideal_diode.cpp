#include "part/ideal_diode/ideal_diode.hpp"

#include "part/ideal_diode/gate_control.hpp"
#include "part/ideal_diode/quiescent_draw.hpp"
#include "part/installer.hpp"
#include "part/junction_material.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

const Description& IdealDiode::describe() {
  static const Description description =
      Describe<IdealDiode>("ideal-diode",
                           "A MOSFET that lets current through one way at a drop of millivolts.")
          .value("on_resistance", &IdealDiode::on_resistance, {0.1_mOhm, 10.0_Ohm},
                 "resistance when fully on", "typical of small modules, from memory")
          .value("forward_drop", &IdealDiode::forward_drop, {1.0_mV, 1.0_V},
                 "forward voltage it regulates to at small current",
                 "typical of controllers, from memory")
          .value("reverse_threshold", &IdealDiode::reverse_threshold, {1.0_mA, 100.0_A},
                 "reverse current at which it switches off", "typical, from memory")
          .value("turn_off", &IdealDiode::turn_off, {1.0_us * 0.01, 100.0_ms},
                 "how long the full channel still conducts backwards",
                 "typical of controllers, from memory")
          .value("turn_on", &IdealDiode::turn_on, {1.0_us * 0.01, 1.0_s},
                 "from forward voltage to conduction; its body diode conducts meanwhile",
                 "typical of controllers, from memory")
          .value("own_draw", &IdealDiode::own_draw, {0.0_A, 1.0_A},
                 "what its controller draws from the anode, if `minus` is wired",
                 "assumed: nothing")
          .value("rated", &IdealDiode::rated, {10.0_mA, 500.0_A}, "rated current", "assumed")
          .value("reverse_voltage", &IdealDiode::reverse_voltage, {1.0_V, 1000.0_V},
                 "highest reverse voltage", "usual MOSFET class, assumed")
          .value("hottest", &IdealDiode::hottest, {50.0_degC, 200.0_degC},
                 "highest junction temperature", "typical, from memory")
          .with(fields_of_warm_parts("typical of a small module in still air, from memory"))
          .with(fields_of_every_part())
          .done();
  return description;
}

IdealDiode::IdealDiode() {
  body_resistance = Value<KelvinPerWatt>{40.0_K_per_W};
  body_heat = Value<JoulePerKelvin>{2.0_J_per_K};
}

std::unique_ptr<Part> IdealDiode::clone() const { return std::make_unique<IdealDiode>(*this); }

std::vector<Terminal> IdealDiode::terminals() const {
  return {{"anode", Role::Contact, true, "where current goes in"},
          {"cathode", Role::Contact, true, "where it comes out"},
          {"minus", Role::Minus, own_draw.si() > 0.0, "return of its controller"}};
}

std::vector<FailureMode> IdealDiode::failure_modes() const {
  return {
      {"shorted", "it lets current through both ways", {bridged("anode", "cathode")}},
      {"open", "it lets no current through", {opened("anode")}},
      {"reversed", "it stands the wrong way round", {exchanged("anode", "cathode")}},
      {"controller dead",
       "only its body diode conducts: a drop of most of a volt, and heat",
       {},
       altering<IdealDiode>([](IdealDiode& diode) { diode.controller_dead = true; })},
  };
}

std::vector<TestPoint> IdealDiode::test_points() const {
  return {{"anode", "cathode", "forward voltage: tens of millivolts, or its controller is dead"}};
}

void IdealDiode::install(Installer& installer) const {
  const auto anode = installer.node("anode");
  const auto cathode = installer.node("cathode");
  const auto body = installer.body();
  const auto channel =
      installer.add(blocking_channel(forward_drop.si()), {anode, cathode, body}, "channel");
  const auto diode = installer.add(body_diode(), {anode, cathode, body}, "body diode");
  if (own_draw.si() > 0.0) {
    installer.add(QuiescentDraw{.current_a = own_draw.si()}, {anode, installer.node("minus"), body},
                  "own draw");
  }
  if (!controller_dead) {
    installer.add_behaviour(std::make_unique<GateControl>(
        name, channel, anode, cathode, on_resistance.si(), forward_drop.si(),
        reverse_threshold.si(), GateTimes{turn_on.si(), turn_off.si()}));
  }

  const std::size_t current = installer.watch(
      "current", Ampere::dimension, [=](const network::Network& net, const network::View& view) {
        const double v = view.between(anode, cathode);
        return net.law(channel).current(v) + net.law(diode).current(v, view.potential(body));
      });
  const std::size_t reverse = installer.watch_voltage("reverse voltage", cathode, anode);
  const std::size_t heat = installer.watch_temperature("junction temperature", body);
  installer.rate("rated current", current, rated.si(), true, 10.0_ms, "as stated");
  installer.rate("reverse voltage", reverse, reverse_voltage.si(), true, 0.0_s, "as stated");
  installer.rate("junction temperature", heat, hottest.si(), true, 0.0_s, "as stated");
}

}  // namespace tideover::part

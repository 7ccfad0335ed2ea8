#include "part/resistor/resistor.hpp"

#include "part/installer.hpp"
#include "part/resistance.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

Resistor::Resistor() {
  // A quarter-watt resistor: rated to 70 degC ambient and 155 degC body, (155 - 70) K / 0.25 W.
  body_resistance = Value<KelvinPerWatt>(340_K_per_W);
  body_heat = Value<JoulePerKelvin>(0.2_J_per_K);
}

const Description& Resistor::describe() {
  static const Description description =
      Describe<Resistor>("resistor", "Turns current into heat.")
          .value("resistance", &Resistor::resistance, {10e-6_Ohm, 100_MOhm},
                 "resistance; preferred values are those of IEC 60063")
          .required()
          .value("rated", &Resistor::rated, {1_mW, 1000_W},
                 "power it may turn into heat at 70 degC", "the usual small size")
          .value("hottest", &Resistor::hottest, {50_degC, 500_degC}, "body temperature it stands",
                 "film resistors, IEC 60115-1, from memory")
          .with(fields_of_every_part())
          .with(fields_of_warm_parts("a quarter-watt film resistor on its wires, from memory"))
          .done();
  return description;
}

std::unique_ptr<Part> Resistor::clone() const { return std::make_unique<Resistor>(*this); }

std::vector<Terminal> Resistor::terminals() const {
  return {{"a", Role::Contact, true, "one end of " + name},
          {"b", Role::Contact, true, "other end of " + name}};
}

std::vector<FailureMode> Resistor::failure_modes() const {
  return {{"open", "it carries nothing", {opened("a")}},
          {"shorted", "it is bridged", {bridged("a", "b")}},
          {"ten times too large",
           "a band was misread: its resistance is ten times what is stated",
           {},
           altering<Resistor>([](Resistor& resistor) { scale(resistor.resistance, 10.0); })},
          {"ten times too small",
           "a band was misread: its resistance is a tenth of what is stated",
           {},
           altering<Resistor>([](Resistor& resistor) { scale(resistor.resistance, 0.1); })}};
}

std::vector<TestPoint> Resistor::test_points() const {
  return {{"a", "b", "voltage across it; resistance with the power off and one end free"}};
}

void Resistor::install(Installer& installer) const {
  const auto a = installer.node("a");
  const auto b = installer.node("b");
  const auto body = installer.body();
  const auto element =
      installer.add(WarmResistance{1.0 / resistance.si()}, {a, b, body}, "element");
  const std::size_t power =
      installer.watch("power", Watt::dimension,
                      [element, a, b](const network::Network& net, const network::View& view) {
                        const double drop_v = view.between(a, b);
                        return net.law(element).conductance_s * drop_v * drop_v;
                      });
  installer.rate("power", power, rated.si(), true, 5_s, rated.given ? "as stated" : "usual size");
  const std::size_t temperature = installer.watch_temperature("body temperature", body);
  installer.rate("body temperature", temperature, hottest.si(), true, 0_s,
                 hottest.given ? "as stated" : "IEC 60115-1, from memory");
}

}  // namespace tideover::part

// The values of a relay; its equations are in relay.cpp.

#include "part/relay/relay.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

void describe_coil(Describe<Relay>& description) {
  description
      .value("coil_rated", &Relay::coil_rated, {1.0_V, 60.0_V}, "voltage the coil is made for")
      .required()
      .value("coil_resistance", &Relay::coil_resistance, {1.0_Ohm, 100.0_kOhm},
             "resistance of the coil at the reference temperature")
      .required()
      .value("reference", &Relay::reference, {Temperature::of_celsius(-40.0), 125.0_degC},
             "coil temperature at which the coil's values hold", "usual in catalogues")
      .value("inductance", &Relay::inductance, {0.0_H, 100.0_H}, "inductance of the coil",
             "so that L/R is 2 ms: typical of small relays, from memory")
      .value("pick_up", &Relay::pick_up, {0.0_V, 60.0_V},
             "coil voltage that surely pulls the armature, coil at the reference temperature",
             "75 % of coil_rated, usual in catalogues")
      .value("release", &Relay::release, {0.0_V, 60.0_V},
             "coil voltage at which the armature surely falls off, at the reference temperature",
             "10 % of coil_rated, usual in catalogues")
      .value("coil_highest", &Relay::coil_highest, {0.0_V, 100.0_V},
             "highest voltage the coil stands for good",
             "110 % of coil_rated, IEC 61810-1 class 1, from memory")
      .value("coil_hottest", &Relay::coil_hottest, {50.0_degC, 200.0_degC},
             "highest coil temperature", "class A insulation, from memory");
}

void describe_round_the_coil(Describe<Relay>& description) {
  description
      .choice("suppression", &Relay::suppression, {"none", "diode", "resistor", "zener"},
              "what lies across the coil", "assumed")
      .value("avalanche", &Relay::avalanche, {50.0_V, 2000.0_V},
             "without suppression: voltage at which whatever switches the coil breaks down",
             "arc over a small contact, assumed")
      .value("zener", &Relay::zener, {1.0_V, 200.0_V},
             "voltage of the zener diode; another diode lies in series with it", "assumed")
      .value("suppression_resistor", &Relay::suppression_resistor, {1.0_Ohm, 1.0_MOhm},
             "resistor across the coil", "assumed")
      .count("series_diodes", &Relay::series_diodes, 0, 20, "silicon diodes before the coil",
             "assumed: none")
      .value("series_resistor", &Relay::series_resistor, {0.0_Ohm, 100.0_kOhm},
             "resistor before the coil", "assumed: none");
}

void describe_contacts(Describe<Relay>& description) {
  description.count("poles", &Relay::poles, 1, 4, "changeover contacts", "assumed")
      .value("travel", &Relay::travel, {1.0_us, 1.0_s},
             "from the opening of the rest contact to the first touch of the work contact",
             "typical of small relays, from memory")
      .value("return_travel", &Relay::return_travel, {1.0_us, 1.0_s}, "the same on the way back",
             "typical of small relays, from memory")
      .value("bounce", &Relay::bounce, {0.0_s, 1.0_s},
             "from first touch to lasting contact; in it the contact opens twice again",
             "typical of small relays, from memory")
      .value("contact_resistance", &Relay::contact_resistance, {0.01_mOhm, 10.0_Ohm},
             "of one closed contact", "typical; catalogues state at most 100 mOhm when new")
      .value("contact_rated", &Relay::contact_rated, {1.0_mA, 500.0_A},
             "direct current the contacts carry and break", "typical of small relays, from memory")
      .value("contact_voltage", &Relay::contact_voltage, {1.0_V, 1000.0_V},
             "direct voltage at which they break it", "usual in catalogues, from memory");
}

}  // namespace

const Description& Relay::describe() {
  static const Description description = [] {
    Describe<Relay> made("relay", "Moves contacts when its coil is fed; they follow late.");
    describe_coil(made);
    describe_round_the_coil(made);
    describe_contacts(made);
    made.value("winding_resistance", &Relay::winding_resistance, {0.1_K_per_W, 1000.0_K_per_W},
               "temperature rise of the winding above the case, per watt",
               "typical of small relays, from memory")
        .value("winding_heat", &Relay::winding_heat, {0.01_J_per_K, 10000.0_J_per_K},
               "heat the winding takes up per kelvin", "10 g of copper, computed")
        .with(
            fields_of_warm_parts("typical of a small relay in still air, case to air, from memory"))
        .with(fields_of_every_part());
    return made.done();
  }();
  return description;
}

}  // namespace tideover::part

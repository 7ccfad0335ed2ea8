#include "part/led/led.hpp"

#include "base/contract.hpp"
#include "part/installer.hpp"
#include "part/led/led_law.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

/// What a bridged diode keeps for itself: not nothing, because the corner of its law is as wide.
constexpr Volt shorted_forward = Volt::of_si(0.2);

}  // namespace

const Description& Led::describe() {
  static const Description description =
      Describe<Led>("led", "A light-emitting diode with its series resistor.")
          .value("forward", &Led::forward, {1_V, 60_V},
                 "forward voltage at its working current, of all diodes in the row",
                 "a red or green one: 2.0 V; blue and white take 3 V; from memory")
          .value("series", &Led::series, {1_Ohm, 10_MOhm}, "its series resistor")
          .required()
          .value("rated", &Led::rated, {0.1_mA, 10_A}, "current it stands for good",
                 "5 mm indicator, from memory")
          .value("series_rated", &Led::series_rated, {1_mW, 100_W}, "rated power of the resistor",
                 "the usual small size")
          .with(fields_of_every_part())
          .done();
  return description;
}

std::unique_ptr<Part> Led::clone() const { return std::make_unique<Led>(*this); }

std::vector<Terminal> Led::terminals() const {
  return {{"plus", Role::Plus, true, "anode side of " + name},
          {"minus", Role::Minus, true, "cathode side of " + name}};
}

std::vector<FailureMode> Led::failure_modes() const {
  return {
      {"dark", "it carries nothing", {opened("plus")}},
      {"shorted",
       "the diode is bridged and the resistor alone limits the current",
       {},
       altering<Led>([](Led& led) { put(led.forward, shorted_forward); })},
      {"reversed", "it stands the wrong way round and stays dark", {exchanged("plus", "minus")}}};
}

std::vector<TestPoint> Led::test_points() const {
  return {{"plus", "minus", "voltage across diode and resistor"}};
}

void Led::install(Installer& installer) const {
  const auto plus = installer.node("plus");
  const auto minus = installer.node("minus");
  const auto lamp = installer.add(LedLaw{.forward_v = forward.si(), .series_ohm = series.si()},
                                  {plus, minus}, "lamp");
  const std::size_t current =
      installer.watch("current", Ampere::dimension,
                      [lamp, plus, minus](const network::Network& net, const network::View& view) {
                        return net.law(lamp).current_a_at(view.between(plus, minus));
                      });
  installer.rate("forward current", current, rated.si(), true, 1_s,
                 rated.given ? "as stated" : "5 mm indicator, from memory");
  installer.watch_polarity(installer.watch_voltage("voltage", plus, minus));
  const std::size_t heat = installer.watch(
      "power in the resistor", Watt::dimension,
      [lamp, plus, minus](const network::Network& net, const network::View& view) {
        const double current_a = net.law(lamp).current_a_at(view.between(plus, minus));
        return current_a * current_a * net.law(lamp).series_ohm;
      });
  installer.rate("power in the resistor", heat, series_rated.si(), true, 5_s,
                 series_rated.given ? "as stated" : "usual size");
}

Ohm led_series_resistor(Volt supply, Volt forward, Ampere current, Series series) {
  TIDEOVER_EXPECT(supply > forward && current.si() > 0.0,
                  "the supply must exceed the forward voltage");
  return nearest_preferred((supply - forward) / current, series);
}

}  // namespace tideover::part

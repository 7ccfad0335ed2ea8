#include "part/thermal_cut_out/thermal_cut_out.hpp"

#include "part/installer.hpp"
#include "part/thermal_cut_out/trip.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

constexpr Kelvin usual_hysteresis = 20_K;
/// Twice the tolerance such parts are sold with, 5 K (from memory).
constexpr Kelvin drifted = 10_K;

}  // namespace

const Description& ThermalCutOut::describe() {
  static const Description description =
      Describe<ThermalCutOut>("thermal-cut-out", "Opens when what it sits on gets too hot.")
          .value("opens", &ThermalCutOut::opens, {0.0_degC, 300.0_degC},
                 "temperature at which it opens", "assumed")
          .value("resets", &ThermalCutOut::resets, {Temperature::of_celsius(-50.0), 300.0_degC},
                 "temperature at which it closes again",
                 "20 K below: typical of small bimetal cut-outs, from memory")
          .flag("one_shot", &ThermalCutOut::one_shot, "it never closes again", "assumed")
          .part_name("sits_on", &ThermalCutOut::sits_on,
                     "part whose temperature it feels; without it, the air it stands in")
          .value("resistance", &ThermalCutOut::resistance, {0.01_mOhm, 10.0_Ohm},
                 "resistance while closed", "typical, from memory")
          .value("rated", &ThermalCutOut::rated, {1.0_mA, 100.0_A}, "direct current it breaks",
                 "typical of small bimetal cut-outs, from memory")
          .value("rated_voltage", &ThermalCutOut::rated_voltage, {1.0_V, 1000.0_V},
                 "direct voltage at which it breaks it",
                 "typical of small bimetal cut-outs, from memory")
          .with(fields_of_warm_parts("typical of a small bimetal cut-out in air, from memory"))
          .with(fields_of_every_part())
          .done();
  return description;
}

ThermalCutOut::ThermalCutOut() {
  body_resistance = Value<KelvinPerWatt>{40.0_K_per_W};
  body_heat = Value<JoulePerKelvin>{2.0_J_per_K};
}

std::unique_ptr<Part> ThermalCutOut::clone() const {
  return std::make_unique<ThermalCutOut>(*this);
}

std::vector<Terminal> ThermalCutOut::terminals() const {
  return {{"a", Role::Contact, true, "either end"}, {"b", Role::Contact, true, "the other end"}};
}

std::vector<FailureMode> ThermalCutOut::failure_modes() const {
  std::vector<FailureMode> modes{
      {"open", "it has opened for good", {opened("a")}},
      {"stuck closed",
       "it never opens; nobody notices until something is too hot",
       {bridged("a", "b", resistance.nominal())}},
      {"opens early", "it opens 10 K too soon", {}, altering<ThermalCutOut>([](ThermalCutOut& it) {
         it.shift(-drifted);
       })},
      {"opens late",
       "it opens 10 K too late; nobody notices until something is too hot",
       {},
       altering<ThermalCutOut>([](ThermalCutOut& it) { it.shift(drifted); })}};
  if (!sits_on.empty()) {
    modes.push_back({"come off",
                     "it has come off what it sits on and feels its own air",
                     {},
                     altering<ThermalCutOut>([](ThermalCutOut& it) { it.sits_on.clear(); })});
  }
  return modes;
}

void ThermalCutOut::shift(Kelvin by) {
  if (resets.given) put(resets, resets.nominal() + by);
  put(opens, opens.nominal() + by);
}

std::vector<TestPoint> ThermalCutOut::test_points() const {
  return {{"a", "b", "drop over the closed contact: next to nothing"}};
}

Temperature ThermalCutOut::resets_at() const {
  return resets.given ? resets.nominal() : opens.nominal() + -usual_hysteresis;
}

std::vector<std::string> ThermalCutOut::contradictions() const {
  std::vector<std::string> wrong;
  if (resets_at() >= opens.nominal()) wrong.emplace_back("resets: must lie below opens");
  if (one_shot && resets.given) wrong.emplace_back("resets: a one-shot never closes again");
  return wrong;
}

void ThermalCutOut::install(Installer& installer) const {
  const auto a = installer.node("a");
  const auto b = installer.node("b");
  const auto body = installer.body();
  const auto felt = sits_on.empty() ? body : installer.body_of(sits_on).value_or(body);
  const auto contact =
      installer.add(WarmResistance{1.0 / resistance.si()}, {a, b, body}, "contact");
  installer.add_behaviour(std::make_unique<CutOutTrip>(
      name, contact, felt, TripTemperatures{opens.si(), resets_at().si()}, one_shot));

  const std::size_t current = installer.watch(
      "current", Ampere::dimension, [=](const network::Network& net, const network::View& view) {
        return net.law(contact).conductance_s * view.between(a, b);
      });
  const std::size_t across = installer.watch_voltage("voltage across", a, b);
  installer.watch_temperature("felt temperature", felt);
  installer.rate("rated current", current, rated.si(), true, 1.0_s, "as stated");
  installer.rate("rated voltage", across, rated_voltage.si(), true, 0.0_s, "as stated");
}

}  // namespace tideover::part

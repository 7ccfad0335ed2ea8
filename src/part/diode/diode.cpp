#include "part/diode/diode.hpp"

#include <algorithm>

#include "part/installer.hpp"
#include "part/resistance.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

const Description& DiodePoint::describe() {
  static const Description description =
      Describe<DiodePoint>("diode point", "One point of a diode's forward curve.")
          .value("voltage", &DiodePoint::voltage, {1.0_mV, 10.0_V}, "forward voltage")
          .required()
          .value("current", &DiodePoint::current, {Ampere::of_si(1e-9), 1000.0_A},
                 "current at that voltage")
          .required()
          .done();
  return description;
}

const Description& Diode::describe() {
  static const Description description =
      Describe<Diode>("diode", "Lets current through one way and keeps some voltage for it.")
          .choice("material", &Diode::material, words_for_materials(),
                  "what the junction is made of", "assumed")
          .records("points", &Diode::points, 0, 3,
                   "one to three points of its typical forward curve")
          .value("ideality", &Diode::ideality, {0.0_ratio, 4.0_ratio},
                 "how far it is from the ideal exponential; 1 is ideal",
                 "1.8 for silicon rectifiers, 1.05 for Schottky ones: typical, from memory")
          .value("saturation_current", &Diode::saturation_current, {0.0_A, 1.0_A},
                 "factor before the exponential, at the reference temperature",
                 "7 nA for silicon, 2 uA for Schottky: typical, from memory")
          .value("series_resistance", &Diode::series_resistance, {0.0_Ohm, 100.0_Ohm},
                 "resistance in series with the junction",
                 "30 mOhm for silicon, 40 mOhm for Schottky: typical, from memory")
          .value("reference", &Diode::reference, {Temperature::of_celsius(-40.0), 150.0_degC},
                 "junction temperature at which these values hold", "usual in datasheets")
          .value("rated", &Diode::rated, {1.0_mA, 1000.0_A}, "rated forward current", "assumed")
          .value("reverse_voltage", &Diode::reverse_voltage, {1.0_V, 2000.0_V},
                 "highest reverse voltage", "assumed")
          .value("leakage", &Diode::leakage, {0.0_A, 1.0_A},
                 "reverse current at that voltage and the reference temperature",
                 "5 uA at 40 V for silicon, 1 mA for Schottky: typical, from memory")
          .value("leakage_doubles", &Diode::leakage_doubles, {0.0_K, 200.0_K},
                 "temperature rise that doubles the leakage",
                 "12 K for silicon from memory, 22.6 K for Schottky from one datasheet")
          .value("hottest", &Diode::hottest, {50.0_degC, 200.0_degC},
                 "highest junction temperature", "usual for Schottky rectifiers, from memory")
          .with(fields_of_warm_parts("typical of a 1 A to 3 A axial diode on short wires, junction "
                                     "to air, from memory"))
          .with(fields_of_every_part())
          .done();
  return description;
}

Diode::Diode() {
  body_resistance = Value<KelvinPerWatt>{50.0_K_per_W};
  body_heat = Value<JoulePerKelvin>{1.0_J_per_K};
}

std::unique_ptr<Part> Diode::clone() const { return std::make_unique<Diode>(*this); }

std::vector<Terminal> Diode::terminals() const {
  return {{"anode", Role::Contact, true, "where current goes in"},
          {"cathode", Role::Contact, true, "where it comes out: the end with the ring"}};
}

std::vector<FailureMode> Diode::failure_modes() const {
  return {{"shorted", "it lets current through both ways", {bridged("anode", "cathode")}},
          {"open", "it lets no current through", {opened("anode")}},
          {"reversed", "it stands the wrong way round", {exchanged("anode", "cathode")}}};
}

std::vector<TestPoint> Diode::test_points() const {
  return {{"anode", "cathode", "forward voltage"}};
}

base::Result<Junction> Diode::junction() const {
  Junction law = typical_junction(material);
  law.reference_k = reference.si();
  if (ideality.si() > 0.0) law.ideality = ideality.si();
  if (saturation_current.si() > 0.0) law.saturation_a = saturation_current.si();
  if (series_resistance.si() > 0.0) law.series_ohm = series_resistance.si();
  if (!points.empty()) {
    std::vector<ForwardPoint> read;
    for (const DiodePoint& point : points) {
      read.push_back({point.voltage.nominal(), point.current.nominal()});
    }
    auto fit = fit_junction(std::move(read), reference.nominal(), law.ideality,
                            Ohm::of_si(law.series_ohm));
    if (!fit) return fit.problems();
    law.saturation_a = fit.value().saturation.si();
    law.ideality = fit.value().ideality;
    law.series_ohm = fit.value().series.si();
  }
  law.series_ohm = std::max(law.series_ohm, least_resistance_ohm);
  if (leakage.si() > 0.0) law.leak_s = leakage.si() / reverse_voltage.si();
  law.leak_s = std::max(law.leak_s, open_conductance_s);
  if (leakage_doubles.si() > 0.0) law.leak_doubles_k = leakage_doubles.si();
  return law;
}

std::vector<std::string> Diode::contradictions() const {
  std::vector<std::string> wrong;
  if (ideality.si() > 0.0 && ideality.si() < least_ideality) {
    wrong.emplace_back("ideality: no junction has one below 0.8");
  }
  if (!points.empty() && saturation_current.given) {
    wrong.emplace_back("saturation_current: follows from the points; leave one of them out");
  }
  if (points.size() > 2 && ideality.given) {
    wrong.emplace_back("ideality: follows from three points; leave it or one point out");
  }
  if (points.size() > 1 && series_resistance.given) {
    wrong.emplace_back("series_resistance: follows from the points; leave it or all but one out");
  }
  if (const auto law = junction(); !law) {
    for (const base::Problem& problem : law.problems()) {
      wrong.push_back("points: " + problem.text + "; " + problem.remedy);
    }
  }
  return wrong;
}

void Diode::install(Installer& installer) const {
  const auto anode = installer.node("anode");
  const auto cathode = installer.node("cathode");
  const auto body = installer.body();
  const auto law = installer.add(junction().value(), {anode, cathode, body}, "junction");

  const std::size_t current = installer.watch(
      "current", Ampere::dimension,
      [law, anode, cathode, body](const network::Network& net, const network::View& view) {
        return net.law(law).current(view.between(anode, cathode), view.potential(body));
      });
  const std::size_t reverse = installer.watch_voltage("reverse voltage", cathode, anode);
  const std::size_t junction_heat = installer.watch_temperature("junction temperature", body);
  installer.rate("forward current", current, rated.si(), true, 10.0_ms, "as stated");
  installer.rate("reverse voltage", reverse, reverse_voltage.si(), true, 0.0_s, "as stated");
  installer.rate("junction temperature", junction_heat, hottest.si(), true, 0.0_s, "as stated");
}

}  // namespace tideover::part

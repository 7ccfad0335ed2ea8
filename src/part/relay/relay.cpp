#include "part/relay/relay.hpp"

#include <algorithm>
#include <cmath>

#include "part/clamp_law.hpp"
#include "part/heat_path.hpp"
#include "part/installer.hpp"
#include "part/junction_material.hpp"
#include "part/relay/armature.hpp"
#include "part/relay/coil_law.hpp"
#include "part/resistance.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

/// "common", "common2": the terminals of pole `pole`, counted from 0.
std::string of_pole(const std::string& terminal, int pole) {
  return pole == 0 ? terminal : terminal + std::to_string(pole + 1);
}

/// How far a relay that has aged is off its own voltages. Assumed.
constexpr double drifted_up = 1.2;
constexpr double drifted_down = 0.5;

/// Differential resistance of a zener or of an avalanche: small beside any coil (assumed).
constexpr double clamp_ohm = 5.0;
/// Forward drop of the diode in series with a zener, at coil currents.
constexpr double zener_diode_v = 0.7;

}  // namespace

Relay::Relay() {
  body_resistance = Value<KelvinPerWatt>{20.0_K_per_W};
  body_heat = Value<JoulePerKelvin>{12.0_J_per_K};
}

std::unique_ptr<Part> Relay::clone() const { return std::make_unique<Relay>(*this); }

std::vector<Terminal> Relay::terminals() const {
  std::vector<Terminal> all = {{"coil_plus", Role::Coil, true, "coil, positive side"},
                               {"coil_minus", Role::Coil, true, "coil, negative side"}};
  for (int pole = 0; pole < poles; ++pole) {
    all.push_back({of_pole("common", pole), Role::Contact, pole == 0, "moving contact"});
    all.push_back({of_pole("rest", pole), Role::Contact, false, "closed while the coil is dead"});
    all.push_back({of_pole("work", pole), Role::Contact, false, "closed while the coil pulls"});
  }
  return all;
}

std::vector<FailureMode> Relay::failure_modes() const {
  // A short inside the coil or across it is felt behind whatever stands before the coil.
  const Ohm before = std::max(bridge, series_resistor.nominal());
  std::vector<FailureMode> modes{
      {"coil open", "it never picks up", {opened("coil_plus")}},
      {"coil shorted",
       "the coil or the part across it is a short circuit on its supply",
       {bridged("coil_plus", "coil_minus", before)}},
      {"pulls late",
       "it needs a fifth more voltage to pick up",
       {},
       altering<Relay>([](Relay& relay) {
         put(relay.pick_up, std::min(drifted_up * relay.pick_up_cold(), relay.coil_limit()));
       })},
      {"lets go late",
       "it lets go only at half its release voltage",
       {},
       altering<Relay>(
           [](Relay& relay) { put(relay.release, drifted_down * relay.release_cold()); })}};
  if (suppression != Suppression::None) {
    modes.push_back({"suppression open",
                     "the coil's current ends in an arc where it is switched",
                     {},
                     altering<Relay>([](Relay& it) { it.suppression = Suppression::None; })});
  }
  if (suppression == Suppression::Diode || series_diodes > 0) {
    modes.push_back({"coil reversed",
                     suppression == Suppression::Diode
                         ? "the diode across the coil is a short circuit on its supply"
                         : "the diodes before the coil block: it never picks up",
                     {exchanged("coil_plus", "coil_minus")}});
  }
  for (int pole = 0; pole < poles; ++pole) add_contact_failures(pole, modes);
  return modes;
}

void Relay::add_contact_failures(int pole, std::vector<FailureMode>& modes) const {
  const std::string common = of_pole("common", pole);
  const std::string rest = of_pole("rest", pole);
  const std::string work = of_pole("work", pole);
  const Ohm closed = contact_resistance.nominal();
  // A welded contact holds the armature, and with it the contacts of all poles.
  FailureMode welded_work{work + " contact welded",
                          "it stays joined, and no pole reaches its rest side any more",
                          {bridged(common, work, closed)}};
  FailureMode welded_rest{rest + " contact welded",
                          "it stays joined, and no pole reaches its work side any more",
                          {bridged(common, rest, closed)}};
  for (int other = 0; other < poles; ++other) {
    welded_work.damages.push_back(opened(of_pole("rest", other)));
    welded_rest.damages.push_back(opened(of_pole("work", other)));
  }
  modes.push_back(std::move(welded_work));
  modes.push_back(std::move(welded_rest));
  modes.push_back({work + " contact open", "it never closes", {opened(work)}});
  modes.push_back({rest + " contact open", "it never closes", {opened(rest)}});
  modes.push_back({work + " contact burnt",
                   "it makes a poor contact and gets hot",
                   {resistive(work, poor_contact)}});
  modes.push_back({rest + " contact burnt",
                   "it makes a poor contact and gets hot",
                   {resistive(rest, poor_contact)}});
  modes.push_back({rest + " and " + work + " bridged",
                   "an arc that stands between them or a blob of solder joins both sources",
                   {bridged(rest, work)}});
}

std::vector<TestPoint> Relay::test_points() const {
  return {{"coil_plus", "coil_minus", "voltage at the coil and what lies before it"},
          {"common", "work", "drop over the work contact"},
          {"common", "rest", "drop over the rest contact"}};
}

std::vector<std::string> Relay::contradictions() const {
  std::vector<std::string> wrong;
  if (release_cold() >= pick_up_cold()) wrong.emplace_back("release: must lie below pick_up");
  if (pick_up_cold() > coil_limit()) {
    wrong.emplace_back("pick_up: must not lie above the highest coil voltage");
  }
  if (series_diodes > 0 && series_resistor.si() > 0.0) {
    wrong.emplace_back("series_resistor: say either series_diodes or series_resistor");
  }
  return wrong;
}

Volt Relay::pick_up_cold() const {
  return pick_up.si() > 0.0 ? pick_up.nominal() : 0.75 * coil_rated.nominal();
}
Volt Relay::release_cold() const {
  return release.si() > 0.0 ? release.nominal() : 0.10 * coil_rated.nominal();
}
Volt Relay::coil_limit() const {
  return coil_highest.si() > 0.0 ? coil_highest.nominal() : 1.10 * coil_rated.nominal();
}
Henry Relay::coil_inductance() const {
  return inductance.si() > 0.0 ? inductance.nominal() : 2.0_ms * coil_resistance.nominal();
}
Ampere Relay::pick_up_current() const { return pick_up_cold() / coil_resistance.nominal(); }
Ampere Relay::release_current() const { return release_cold() / coil_resistance.nominal(); }
Ohm Relay::resistance_at(Temperature coil) const {
  return copper_ratio(coil.si(), reference.si()) * coil_resistance.nominal();
}
Volt Relay::pick_up_at(Temperature coil) const { return pick_up_current() * resistance_at(coil); }

network::NodeId Relay::install_series(Installer& installer) const {
  const auto plus = installer.node("coil_plus");
  if (series_diodes == 0 && series_resistor.si() <= 0.0) return plus;
  const auto coil = installer.inner_node("coil");
  if (series_diodes > 0) {
    Junction diodes = typical_junction(Material::Silicon);
    diodes.in_series = series_diodes;
    // They sit beside the relay in the same air.
    installer.add(diodes, {plus, coil, installer.air()}, "series diodes");
  } else {
    installer.add(WarmResistance{1.0 / series_resistor.si()}, {plus, coil, installer.air()},
                  "series resistor");
  }
  return coil;
}

void Relay::install_suppression(Installer& installer, network::NodeId coil) const {
  const auto minus = installer.node("coil_minus");
  const auto body = installer.body();
  switch (suppression) {
    case Suppression::None: {
      const ClampSide side{avalanche.si(), 1.0 / clamp_ohm};
      installer.add(Clamp{.above = side, .below = side}, {coil, minus, body}, "avalanche");
      break;
    }
    case Suppression::Diode:
      installer.add(typical_junction(Material::Silicon), {minus, coil, body}, "suppression");
      break;
    case Suppression::Resistor:
      installer.add(WarmResistance{1.0 / suppression_resistor.si()}, {coil, minus, body},
                    "suppression");
      break;
    case Suppression::Zener:
      installer.add(Clamp{.below = {zener.si() + zener_diode_v, 1.0 / clamp_ohm}},
                    {coil, minus, body}, "suppression");
      break;
  }
}

void Relay::install_contacts(Installer& installer, network::StateId coil_current) const {
  const double closed_s = 1.0 / contact_resistance.si();
  std::vector<Pole> made;
  for (int pole = 0; pole < poles; ++pole) {
    const auto common = installer.node(of_pole("common", pole));
    const auto rest = installer.node(of_pole("rest", pole));
    const auto work = installer.node(of_pole("work", pole));
    const auto body = installer.body();
    const Pole contacts{
        installer.add(WarmResistance{closed_s}, {common, rest, body}, of_pole("rest", pole)),
        installer.add(WarmResistance{open_conductance_s}, {common, work, body},
                      of_pole("work", pole))};
    made.push_back(contacts);
    const std::size_t current =
        installer.watch(of_pole("contact current", pole), Ampere::dimension,
                        [=](const network::Network& net, const network::View& view) {
                          return net.law(contacts.rest).conductance_s * view.between(common, rest) +
                                 net.law(contacts.work).conductance_s * view.between(common, work);
                        });
    installer.rate(of_pole("contact current", pole), current, contact_rated.si(), true, 10.0_ms,
                   "as stated, for direct current");
  }
  watch_open_contacts(installer);
  installer.watch("position", Ratio::dimension,
                  [pole = made.front()](const network::Network& net, const network::View&) {
                    if (net.law(pole.work).conductance_s > open_conductance_s) return 1.0;
                    return net.law(pole.rest).conductance_s > open_conductance_s ? 0.0 : 0.5;
                  });
  installer.add_behaviour(std::make_unique<Armature>(
      name, coil_current, ArmatureThresholds{pick_up_current().si(), release_current().si()},
      ArmatureTimes{travel.si(), return_travel.si(), bounce.si()}, std::move(made),
      contact_resistance.si()));
}

void Relay::watch_open_contacts(Installer& installer) const {
  for (int pole = 0; pole < poles; ++pole) {
    const auto common = installer.node(of_pole("common", pole));
    const auto rest = installer.node(of_pole("rest", pole));
    const auto work = installer.node(of_pole("work", pole));
    // Across the closed pair there is next to nothing, so the larger is the open pair's.
    const std::size_t across =
        installer.watch(of_pole("voltage across open contacts", pole), Volt::dimension,
                        [=](const network::Network&, const network::View& view) {
                          return std::max(std::abs(view.between(common, rest)),
                                          std::abs(view.between(common, work)));
                        });
    installer.rate(of_pole("contact voltage", pole), across, contact_voltage.si(), true, 1.0_ms,
                   contact_voltage.given ? "as stated, for direct current"
                                         : "usual for power relays on direct current, from memory");
  }
}

void Relay::install(Installer& installer) const {
  const auto minus = installer.node("coil_minus");
  const auto winding = installer.network().add_thermal_node(name + ".winding", winding_heat.si(),
                                                            installer.air_start().si());
  installer.add(HeatPath{1.0 / winding_resistance.si()}, {winding, installer.body()}, "winding");
  const auto coil = install_series(installer);
  const auto law = installer.add(Coil{.resistance_ohm = coil_resistance.si(),
                                      .reference_k = reference.si(),
                                      .inductance_h = coil_inductance().si()},
                                 {coil, minus, winding}, {{{"coil current", 0.0, 1.0}}}, "coil");
  install_suppression(installer, coil);
  const auto current = installer.network().state(law);
  installer.watch_state("coil current", current, Ampere::dimension);
  const std::size_t voltage = installer.watch_voltage("coil voltage", coil, minus);
  const std::size_t heat = installer.watch_temperature("coil temperature", winding);
  installer.watch_temperature("case temperature", installer.body());
  installer.rate(
      "coil voltage", voltage, coil_limit().si(), true, 1.0_s,
      coil_highest.given ? "as stated" : "110 % of rated, IEC 61810-1 class 1, from memory");
  installer.rate("coil temperature", heat, coil_hottest.si(), true, 0.0_s, "as stated");
  install_contacts(installer, current);
}

}  // namespace tideover::part

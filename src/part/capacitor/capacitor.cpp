#include "part/capacitor/capacitor.hpp"

#include <cmath>

#include "part/capacitor_law.hpp"
#include "part/installer.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

/// Well past the usual end of life, which is a loss of a fifth and twice the series resistance
/// (IEC 60384-4, from memory); how far past is assumed.
constexpr double dried_capacitance = 0.5;
constexpr double dried_esr = 5.0;

}  // namespace

const Description& Capacitor::describe() {
  static const Description description =
      Describe<Capacitor>("capacitor", "Stores a little charge and holds a rail for milliseconds.")
          .choice("make", &Capacitor::make, {"electrolytic", "polymer", "film", "ceramic"},
                  "how it is made", "what holds a rail up is usually electrolytic")
          .value("capacitance", &Capacitor::capacitance, {1e-12_F, 1000_F},
                 "capacitance, new and at its working voltage")
          .required()
          .value("esr", &Capacitor::esr, {0.1_mOhm, 100_Ohm}, "series resistance, new",
                 "typical of 1000 uF at 35 V, from memory")
          .value("leakage", &Capacitor::leakage, {0_A, 1_A}, "leakage current at rated voltage",
                 "typical after days under voltage, from memory")
          .value("rated", &Capacitor::rated, {1_V, 1000_V}, "rated voltage")
          .required()
          .value("used", &Capacitor::used, {0_ratio, 3_ratio}, "share of its life that is used up",
                 "new")
          .value("loses", &Capacitor::loses, {0_ratio, 0.3_ratio},
                 "share of its capacitance that a whole life takes",
                 "usual end of life, IEC 60384-4, from memory")
          .value("esr_grows", &Capacitor::esr_grows, {1_ratio, 10_ratio},
                 "what its series resistance is multiplied by over a whole life",
                 "usual end of life, from memory")
          .value("life", &Capacitor::life, {100_h, 1e6_h}, "life at the temperature below",
                 "plain electrolytic, from memory")
          .value("life_temperature", &Capacitor::life_temperature, {40_degC, 200_degC},
                 "temperature its life is stated at", "plain electrolytic, from memory")
          .value("life_doubles", &Capacitor::life_doubles, {4_K, 30_K},
                 "how much cooler doubles its life",
                 "common practice, no source; sources on other parts say 8 K to 10 K")
          .with(fields_of_every_part())
          .done();
  return description;
}

std::unique_ptr<Part> Capacitor::clone() const { return std::make_unique<Capacitor>(*this); }

std::vector<Terminal> Capacitor::terminals() const {
  return {{"plus", Role::Plus, true, "positive end of " + name},
          {"minus", Role::Minus, true, "negative end of " + name}};
}

std::vector<FailureMode> Capacitor::failure_modes() const {
  std::vector<FailureMode> modes{
      {"shorted", "it is a short circuit", {bridged("plus", "minus")}},
      {"open", "it stores nothing", {opened("plus")}},
      {"dried out",
       "half its capacitance is gone and its series resistance is five times as high",
       {},
       altering<Capacitor>([](Capacitor& capacitor) {
         scale(capacitor.capacitance, dried_capacitance);
         scale(capacitor.esr, dried_esr);
         // What leaks at all does so through a far larger resistance than the dried-out path.
         const double most_a = 0.01 * capacitor.rated.si() / capacitor.esr.si();
         if (capacitor.leakage.si() > most_a) {
           put(capacitor.leakage, Ampere::of_si(most_a));
         }
       })}};
  if (is_poled()) {
    modes.push_back({"reversed",
                     "it stands the wrong way round, gets hot and may burst",
                     {exchanged("plus", "minus")}});
  }
  return modes;
}

std::vector<TestPoint> Capacitor::test_points() const {
  return {{"plus", "minus", "voltage across it; wait until it has gone before touching"}};
}

std::vector<std::string> Capacitor::contradictions() const {
  if (leakage.si() * 100.0 > rated.si() / esr.si()) {
    return {"leakage: must be far below what a short circuit through the series resistance draws"};
  }
  return {};
}

bool Capacitor::is_poled() const {
  return make == CapacitorMake::Electrolytic || make == CapacitorMake::Polymer;
}

Farad Capacitor::aged_capacitance() const {
  return capacitance.nominal() * (1.0 - loses.si() * used.si());
}

Ohm Capacitor::aged_esr() const {
  return esr.nominal() * (1.0 + (esr_grows.si() - 1.0) * used.si());
}

Second Capacitor::life_at(Temperature body) const {
  return life.nominal() * std::exp2((life_temperature.nominal() - body).si() / life_doubles.si());
}

void Capacitor::install(Installer& installer) const {
  const auto plus = installer.node("plus");
  const auto minus = installer.node("minus");
  const Capacitance law{.capacitance_f = aged_capacitance().si(),
                        .esr_ohm = aged_esr().si(),
                        .leak_s = leakage.si() / rated.si()};
  installer.add(law, {plus, minus}, {{{"voltage", 0.0, rated.si()}}}, "plates");
  const std::size_t voltage = installer.watch_voltage("voltage", plus, minus);
  installer.rate("voltage", voltage, rated.si(), true, 0_s, "as stated");
  if (is_poled()) {
    installer.watch_polarity(voltage, 1_V, 1_s,
                             "electrolytic capacitors, common practice, no source");
  } else {
    installer.rate("reverse voltage", voltage, -rated.si(), false, 1_s, "as stated");
  }
}

}  // namespace tideover::part

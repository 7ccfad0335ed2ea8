#include "quantity/measure.hpp"

#include <array>

namespace tideover::quantity {
namespace {

struct Name {
  Measure measure;
  std::string_view words;
  std::string_view example;
  std::string_view range;
};

constexpr std::array names{
    Name{measure_of<Ratio>(), "a ratio", "80 %", "20 % to 80 %"},
    Name{measure_of<Metre>(), "a length", "180 mm", "10 mm to 20 mm"},
    Name{measure_of<SquareMetre>(), "an area", "0.75 mm2", "0.5 mm2 to 1.5 mm2"},
    Name{measure_of<CubicMetre>(), "a volume", "1.2 l", "1 l to 2 l"},
    Name{measure_of<Kilogram>(), "a mass", "70 g", "60 g to 70 g"},
    Name{measure_of<Second>(), "a time", "4 h", "10 ms to 20 ms"},
    Name{measure_of<Hertz>(), "a rate", "3 %/month", "1 %/month to 3 %/month"},
    Name{measure_of<Ampere>(), "a current", "650 mA", "0.5 A to 1 A"},
    Name{measure_of<Coulomb>(), "an electric charge", "2.9 Ah", "2.5 Ah to 3 Ah"},
    Name{measure_of<Kelvin>(), "a temperature difference", "5 K", "5 K to 10 K"},
    Name{measure_of<Temperature>(), "a temperature", "25 degC", "2 degC to 35 degC"},
    Name{measure_of<Joule>(), "an energy", "50 Wh", "40 Wh to 60 Wh"},
    Name{measure_of<Watt>(), "a power", "3 W", "2 W to 4 W"},
    Name{measure_of<Volt>(), "a voltage", "12 V", "20 V to 28 V"},
    Name{measure_of<Ohm>(), "a resistance", "4.7 kOhm", "20 mOhm to 50 mOhm"},
    Name{measure_of<Siemens>(), "a conductance", "2 S", "1 S to 2 S"},
    Name{measure_of<Farad>(), "a capacitance", "1000 uF", "800 uF to 1200 uF"},
    Name{measure_of<Henry>(), "an inductance", "100 mH", "80 mH to 120 mH"},
    Name{measure_of<OhmMetre>(), "a resistivity", "0.0172 Ohm.mm2/m",
         "0.017 Ohm.mm2/m to 0.018 Ohm.mm2/m"},
    Name{measure_of<PerKelvin>(), "a temperature coefficient", "0.393 %/K", "0.38 %/K to 0.4 %/K"},
    Name{measure_of<VoltPerKelvin>(), "a voltage per temperature difference", "3 mV/K",
         "2 mV/K to 4 mV/K"},
    Name{measure_of<KelvinPerWatt>(), "a thermal resistance", "2 K/W", "1 K/W to 3 K/W"},
    Name{measure_of<WattPerKelvin>(), "a thermal conductance", "0.5 W/K", "0.4 W/K to 0.6 W/K"},
    Name{measure_of<JoulePerKelvin>(), "a heat capacity", "45 J/K", "40 J/K to 50 J/K"},
    Name{measure_of<AmpereSquaredSecond>(), "a melting integral (I2t)", "2 A2s", "2 A2s to 4 A2s"},
    Name{measure_of<CubicMetrePerSecond>(), "an air flow", "20 m3/h", "10 m3/h to 20 m3/h"},
};

constexpr Name factor{measure_of<Ratio>(), "a factor", "1.5", "1 to 1.5"};

const Name* find(const Measure& measure) {
  if (measure.is_factor) return &factor;
  for (const Name& name : names) {
    if (name.measure == measure) return &name;
  }
  return nullptr;
}

}  // namespace

std::string_view in_words(const Measure& measure) {
  const Name* name = find(measure);
  return name != nullptr ? name->words : "a quantity";
}

std::string_view example_of(const Measure& measure) {
  const Name* name = find(measure);
  return name != nullptr ? name->example : "";
}

std::string_view range_example_of(const Measure& measure) {
  const Name* name = find(measure);
  return name != nullptr ? name->range : "";
}

}  // namespace tideover::quantity

#include "quantity/unit_table.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/contract.hpp"
#include "base/text.hpp"

namespace tideover::quantity {
namespace {

constexpr Measure ratio = measure_of<Ratio>();
constexpr Measure length = measure_of<Metre>();
constexpr Measure area = measure_of<SquareMetre>();
constexpr Measure volume = measure_of<CubicMetre>();
constexpr Measure mass = measure_of<Kilogram>();
constexpr Measure time = measure_of<Second>();
constexpr Measure rate = measure_of<Hertz>();
constexpr Measure current = measure_of<Ampere>();
constexpr Measure charge = measure_of<Coulomb>();
constexpr Measure difference = measure_of<Kelvin>();
constexpr Measure temperature = measure_of<Temperature>();
constexpr Measure energy = measure_of<Joule>();
constexpr Measure power = measure_of<Watt>();
constexpr Measure voltage = measure_of<Volt>();
constexpr Measure resistance = measure_of<Ohm>();
constexpr Measure conductance = measure_of<Siemens>();
constexpr Measure capacitance = measure_of<Farad>();
constexpr Measure inductance = measure_of<Henry>();
constexpr Measure resistivity = measure_of<OhmMetre>();
constexpr Measure per_kelvin = measure_of<PerKelvin>();
constexpr Measure volt_per_kelvin = measure_of<VoltPerKelvin>();
constexpr Measure thermal_resistance = measure_of<KelvinPerWatt>();
constexpr Measure thermal_conductance = measure_of<WattPerKelvin>();
constexpr Measure heat_capacity = measure_of<JoulePerKelvin>();
constexpr Measure melting_integral = measure_of<AmpereSquaredSecond>();
constexpr Measure air_flow = measure_of<CubicMetrePerSecond>();

constexpr double hour_s = 3600.0;
constexpr double day_s = 86400.0;
constexpr double year_s = 365.25 * day_s;
constexpr double month_s = year_s / 12.0;
constexpr double inch_mm = 25.4;  // exact by definition

// Two letters look alike twice: µ (U+00B5, U+03BC) and Ω (U+03A9, U+2126); both are accepted.
constexpr std::array table{
    Unit{"%", "", ratio, 1, 100},
    Unit{"V", "", voltage},
    Unit{"mV", "", voltage, 1, 1e3},
    Unit{"uV", "µV \u03BCV", voltage, 1, 1e6},
    Unit{"kV", "", voltage, 1e3},
    Unit{"A", "", current},
    Unit{"mA", "", current, 1, 1e3},
    Unit{"uA", "µA \u03BCA", current, 1, 1e6},
    Unit{"nA", "", current, 1, 1e9},
    Unit{"W", "", power},
    Unit{"mW", "", power, 1, 1e3},
    Unit{"uW", "µW \u03BCW", power, 1, 1e6},
    Unit{"kW", "", power, 1e3},
    Unit{"Ohm", "ohm Ω \u2126", resistance},
    Unit{"mOhm", "mohm mΩ m\u2126", resistance, 1, 1e3},
    Unit{"uOhm", "µOhm \u03BCOhm uΩ u\u2126 µΩ µ\u2126 \u03BCΩ \u03BC\u2126", resistance, 1, 1e6},
    Unit{"kOhm", "kohm kΩ k\u2126", resistance, 1e3},
    Unit{"MOhm", "Mohm MΩ M\u2126", resistance, 1e6},
    Unit{"S", "", conductance},
    Unit{"mS", "", conductance, 1, 1e3},
    Unit{"uS", "µS \u03BCS", conductance, 1, 1e6},
    Unit{"Ah", "", charge, hour_s},
    Unit{"mAh", "", charge, hour_s, 1e3},
    Unit{"As", "", charge},
    Unit{"Wh", "", energy, hour_s},
    Unit{"mWh", "", energy, hour_s, 1e3},
    Unit{"kWh", "", energy, hour_s * 1e3},
    Unit{"J", "Ws", energy},
    Unit{"mJ", "", energy, 1, 1e3},
    Unit{"kJ", "", energy, 1e3},
    Unit{"F", "", capacitance},
    Unit{"mF", "", capacitance, 1, 1e3},
    Unit{"uF", "µF \u03BCF", capacitance, 1, 1e6},
    Unit{"nF", "", capacitance, 1, 1e9},
    Unit{"pF", "", capacitance, 1, 1e12},
    Unit{"H", "", inductance},
    Unit{"mH", "", inductance, 1, 1e3},
    Unit{"uH", "µH \u03BCH", inductance, 1, 1e6},
    Unit{"nH", "", inductance, 1, 1e9},
    Unit{"s", "", time},
    Unit{"ms", "", time, 1, 1e3},
    Unit{"us", "µs \u03BCs", time, 1, 1e6},
    Unit{"ns", "", time, 1, 1e9},
    Unit{"min", "", time, 60},
    Unit{"h", "", time, hour_s},
    Unit{"d", "day days", time, day_s},
    Unit{"month", "months", time, month_s},
    Unit{"yr", "year years", time, year_s},
    Unit{"Hz", "1/s", rate},
    Unit{"kHz", "", rate, 1e3},
    Unit{"MHz", "", rate, 1e6},
    Unit{"%/h", "", rate, 1, 100 * hour_s},
    Unit{"%/d", "%/day", rate, 1, 100 * day_s},
    Unit{"%/month", "", rate, 1, 100 * month_s},
    Unit{"%/yr", "%/year", rate, 1, 100 * year_s},
    Unit{"1/h", "", rate, 1, hour_s},
    Unit{"1/yr", "1/year", rate, 1, year_s},
    Unit{"degC", "°C ℃", temperature, 1, 1, Temperature::zero_celsius_k},
    Unit{"degF", "°F ℉", temperature, 5, 9, Temperature::zero_celsius_k - 32.0 * 5.0 / 9.0},
    Unit{"K", "", difference},
    Unit{"mK", "", difference, 1, 1e3},
    Unit{"m", "", length},
    Unit{"cm", "", length, 1, 1e2},
    Unit{"mm", "", length, 1, 1e3},
    Unit{"um", "µm \u03BCm", length, 1, 1e6},
    Unit{"in", "inch", length, inch_mm, 1e3},
    Unit{"m2", "m² m^2", area},
    Unit{"cm2", "cm² cm^2", area, 1, 1e4},
    Unit{"mm2", "mm² mm^2", area, 1, 1e6},
    Unit{"m3", "m³ m^3", volume},
    Unit{"l", "L", volume, 1, 1e3},
    Unit{"cm3", "cm³ cm^3 ml mL", volume, 1, 1e6},
    Unit{"mm3", "mm³ mm^3", volume, 1, 1e9},
    Unit{"kg", "", mass},
    Unit{"g", "", mass, 1, 1e3},
    Unit{"mg", "", mass, 1, 1e6},
    Unit{"Ohm.m", "Ω·m \u2126·m Ω.m \u2126.m", resistivity},
    Unit{"Ohm.mm2/m", "Ω·mm²/m \u2126·mm²/m Ohm.mm²/m Ω.mm2/m \u2126.mm2/m", resistivity, 1, 1e6},
    Unit{"1/K", "/K", per_kelvin},
    Unit{"%/K", "", per_kelvin, 1, 1e2},
    Unit{"ppm/K", "", per_kelvin, 1, 1e6},
    Unit{"V/K", "", volt_per_kelvin},
    Unit{"mV/K", "", volt_per_kelvin, 1, 1e3},
    Unit{"uV/K", "µV/K \u03BCV/K", volt_per_kelvin, 1, 1e6},
    Unit{"K/W", "", thermal_resistance},
    Unit{"W/K", "", thermal_conductance},
    Unit{"mW/K", "", thermal_conductance, 1, 1e3},
    Unit{"J/K", "", heat_capacity},
    Unit{"kJ/K", "", heat_capacity, 1e3},
    Unit{"A2s", "A²s A^2s", melting_integral},
    Unit{"m3/s", "m³/s m^3/s", air_flow},
    Unit{"m3/h", "m³/h m^3/h", air_flow, 1, hour_s},
    Unit{"l/s", "L/s", air_flow, 1, 1e3},
    Unit{"l/min", "L/min", air_flow, 1, 60e3},
};

/// Calls `use` with each word of the row; stops when it returns true.
template <class Use>
bool any_word(const Unit& unit, Use use) {
  if (use(unit.word)) return true;
  std::string_view rest = unit.other_spellings;
  while (!rest.empty()) {
    const std::size_t end = std::min(rest.find(' '), rest.size());
    if (use(rest.substr(0, end))) return true;
    rest.remove_prefix(std::min(end + 1, rest.size()));
  }
  return false;
}

}  // namespace

std::span<const Unit> unit_table() { return table; }

double gauge_area_m2(int number) {
  TIDEOVER_EXPECT(number >= 0 && number <= 40, "gauge between 0 and 40");
  const double diameter_m = 0.005 * 0.0254 * std::pow(92.0, (36.0 - number) / 39.0);
  return 3.14159265358979323846 / 4.0 * diameter_m * diameter_m;
}

const Unit* find_unit(std::string_view word) {
  for (const Unit& unit : table) {
    if (any_word(unit, [&](std::string_view spelling) { return spelling == word; })) return &unit;
  }
  return nullptr;
}

std::vector<std::string> unit_words(const Measure& measure) {
  std::vector<std::string> words;
  for (const Unit& unit : table) {
    if (unit.measure != measure) continue;
    any_word(unit, [&](std::string_view spelling) {
      words.emplace_back(spelling);
      return false;
    });
  }
  return words;
}

std::optional<std::string> nearest_unit(std::string_view word, const Measure& expected) {
  if (auto near = base::nearest_word(word, unit_words(expected))) return near;
  std::vector<std::string> all;
  all.reserve(table.size());
  for (const Unit& unit : table) all.emplace_back(unit.word);
  return base::nearest_word(word, all);
}

}  // namespace tideover::quantity

#include "quantity/show.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "base/text.hpp"
#include "quantity/text.hpp"
#include "quantity/unit_table.hpp"

namespace tideover::quantity {
namespace {

constexpr double minute_s = 60.0;
constexpr double hour_s = 3600.0;
constexpr double day_s = 86400.0;
constexpr double year_s = 365.25 * day_s;

/// Units that people read, from large to small; the first that gives a number of one or more.
struct Ladder {
  Measure measure;
  std::vector<std::string_view> words;
};

const std::vector<Ladder>& ladders() {
  static const std::vector<Ladder> all{
      {measure_of<Ratio>(), {"%"}},
      {measure_of<Metre>(), {"m", "mm"}},
      {measure_of<SquareMetre>(), {"m2", "cm2", "mm2"}},
      {measure_of<CubicMetre>(), {"m3", "l", "cm3", "mm3"}},
      {measure_of<Kilogram>(), {"kg", "g", "mg"}},
      {measure_of<Second>(), {"s", "ms", "us", "ns"}},
      {measure_of<Hertz>(), {"MHz", "kHz", "Hz", "1/h", "%/month"}},
      {measure_of<Ampere>(), {"A", "mA", "uA", "nA"}},
      {measure_of<Coulomb>(), {"Ah", "mAh", "As"}},
      {measure_of<Kelvin>(), {"K", "mK"}},
      {measure_of<Joule>(), {"kWh", "Wh", "J", "mJ"}},
      {measure_of<Watt>(), {"kW", "W", "mW", "uW"}},
      {measure_of<Volt>(), {"kV", "V", "mV", "uV"}},
      {measure_of<Ohm>(), {"MOhm", "kOhm", "Ohm", "mOhm", "uOhm"}},
      {measure_of<Siemens>(), {"S", "mS", "uS"}},
      {measure_of<Farad>(), {"F", "mF", "uF", "nF", "pF"}},
      {measure_of<Henry>(), {"H", "mH", "uH", "nH"}},
      {measure_of<OhmMetre>(), {"Ohm.m", "Ohm.mm2/m"}},
      {measure_of<PerKelvin>(), {"1/K", "%/K", "ppm/K"}},
      {measure_of<VoltPerKelvin>(), {"V/K", "mV/K", "uV/K"}},
      {measure_of<KelvinPerWatt>(), {"K/W"}},
      {measure_of<WattPerKelvin>(), {"W/K", "mW/K"}},
      {measure_of<JoulePerKelvin>(), {"kJ/K", "J/K"}},
      {measure_of<AmpereSquaredSecond>(), {"A2s"}},
      {measure_of<CubicMetrePerSecond>(), {"m3/s", "l/s", "m3/h", "l/min"}},
  };
  return all;
}

const std::vector<std::string_view>& words_of(const Measure& measure) {
  static const std::vector<std::string_view> none;
  for (const Ladder& ladder : ladders()) {
    if (ladder.measure == measure) return ladder.words;
  }
  return none;
}

std::string in_unit(double si, const Unit& unit, int digits) {
  const double number = (si - unit.offset) / unit.multiply * unit.divide;
  std::string text = base::number_text(number, digits);
  if (text == "-0") text = "0";
  return text + " " + std::string(unit.word);
}

/// `si` rounded to `digits` still reaches one of the unit.
bool reaches(double si, const Unit& unit, int digits) {
  const double half_digit = 0.5 * std::pow(10.0, -digits);
  return std::abs(si) * unit.divide >= unit.multiply * (1.0 - half_digit);
}

/// One or two neighbouring units, the smaller a whole number: "4 h 12 min".
std::string two_units(double time_s, double large_s, std::string_view large, double small_s,
                      std::string_view small) {
  const double count = std::round(time_s / small_s);
  const double per_large = large_s / small_s;
  const double whole = std::floor(count / per_large);
  const double rest = count - whole * per_large;
  std::string text = base::number_text(whole, 15) + " " + std::string(large);
  if (rest > 0.0) text += " " + base::number_text(rest, 15) + " " + std::string(small);
  return text;
}

std::string show_time(double time_s, int digits) {
  if (time_s < 0.0) return "-" + show_time(-time_s, digits);
  if (time_s >= 2.0 * year_s) return base::number_text(time_s / year_s, digits) + " yr";
  if (time_s >= 20.0 * day_s) return base::number_text(std::round(time_s / day_s), 15) + " d";
  if (time_s >= 2.0 * day_s - 0.5 * hour_s) return two_units(time_s, day_s, "d", hour_s, "h");
  if (time_s >= hour_s - 0.5) return two_units(time_s, hour_s, "h", minute_s, "min");
  // What would be rounded to 60 s is a minute.
  if (time_s + 0.5 * std::pow(10.0, 2 - digits) >= minute_s) {
    return two_units(time_s, minute_s, "min", 1.0, "s");
  }
  for (const std::string_view word : words_of(measure_of<Second>())) {
    const Unit* unit = find_unit(word);
    if (reaches(time_s, *unit, digits)) return in_unit(time_s, *unit, digits);
  }
  return in_unit(time_s, *find_unit("s"), digits);
}

std::string show_temperature(double si, int digits) {
  const double celsius = si - Temperature::zero_celsius_k;
  const double step = digits <= 3 ? 1.0 : std::pow(10.0, 3 - digits);
  const double rounded = std::round(celsius / step) * step;
  return base::number_text(rounded == 0.0 ? 0.0 : rounded, std::min(17, digits + 3)) + " degC";
}

/// Base units spelled out, for a dimension that has no name: "3 m.kg.s-2".
std::string show_unnamed(double si, const Dimension& dimension, int digits) {
  const std::array<std::pair<int, std::string_view>, 5> powers{{{dimension.metre, "m"},
                                                                {dimension.kilogram, "kg"},
                                                                {dimension.second, "s"},
                                                                {dimension.ampere, "A"},
                                                                {dimension.kelvin, "K"}}};
  std::string text = base::number_text(si, digits);
  std::string_view joint = " ";
  for (const auto& [power, word] : powers) {
    if (power == 0) continue;
    text.append(joint).append(word);
    if (power != 1) text += std::to_string(power);
    joint = ".";
  }
  return text;
}

std::string symmetric_text(const Amount& amount, const Measure& measure, int digits) {
  const double half = 0.5 * (amount.high_si - amount.low_si);
  std::string text = show_si(amount.nominal_si, measure, digits) + " +/- ";
  if (measure.is_point) return text + show_si(half, measure_of<Kelvin>(), digits);
  if ((measure == measure_of<Ratio>() && !measure.is_factor) || amount.nominal_si == 0.0) {
    return text + show_si(half, measure, digits);
  }
  return text + base::number_text(100.0 * half / std::abs(amount.nominal_si), 2) + " %";
}

/// A tolerance's size in the unit of the value, as exact_text needs it.
Measure size_measure(const Measure& measure) {
  return measure.is_point ? measure_of<Kelvin>() : measure;
}

bool reads_as(const std::string& text, const Measure& measure, const Amount& amount) {
  const auto read = read_amount(text, measure, Form::Value);
  return read && read.value().nominal_si == amount.nominal_si &&
         read.value().low_si == amount.low_si && read.value().high_si == amount.high_si;
}

}  // namespace

std::string show_si(double si, const Measure& measure, int digits) {
  if (std::isnan(si)) return "not a number";
  if (std::isinf(si)) return si > 0.0 ? "infinite" : "minus infinite";
  if (measure.is_point) return show_temperature(si, digits);
  if (measure == measure_of<Second>()) return show_time(si, digits);
  const std::vector<std::string_view>& words = words_of(measure);
  if (words.empty()) return show_unnamed(si, measure.dimension, digits);
  for (const std::string_view word : words) {
    const Unit* unit = find_unit(word);
    if (reaches(si, *unit, digits)) return in_unit(si, *unit, digits);
  }
  // Zero in the plain unit, anything smaller than all units in the smallest.
  const Unit* plain = find_unit(words.back());
  for (const std::string_view word : words) {
    const Unit* unit = find_unit(word);
    if (si == 0.0 && unit->multiply == 1.0 && unit->divide == 1.0) plain = unit;
  }
  return in_unit(si, *plain, digits);
}

std::string show_range(double low_si, double high_si, const Measure& measure, int digits) {
  return show_si(low_si, measure, digits) + " to " + show_si(high_si, measure, digits);
}

std::string show_amount(const Amount& amount, const Measure& measure, int digits) {
  if (amount.low_si == amount.high_si) return show_si(amount.nominal_si, measure, digits);
  const double above = amount.high_si - amount.nominal_si;
  const double below = amount.nominal_si - amount.low_si;
  const bool is_even = std::abs(above - below) <= 1e-6 * (above + below);
  if (is_even) return symmetric_text(amount, measure, digits);
  return show_range(amount.low_si, amount.high_si, measure, digits);
}

std::string exact_text(double si, const Measure& measure) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  std::string best;
  for (const Unit& unit : unit_table()) {
    if (unit.measure != measure) continue;
    const double number = (si - unit.offset) / unit.multiply * unit.divide;
    // Reading rounds again, so a neighbour may be the one that reads back.
    for (const double near :
         {number, std::nextafter(number, -infinity), std::nextafter(number, infinity)}) {
      const std::string text = base::number_text(near) + " " + std::string(unit.word);
      const auto read = read_amount(text, measure, Form::Exact);
      if (!read || read.value().nominal_si != si) continue;
      if (best.empty() || text.size() < best.size()) best = text;
    }
  }
  return best.empty() ? show_si(si, measure, 17) : best;
}

std::string exact_text(const Amount& amount, const Measure& measure) {
  std::string nominal = exact_text(amount.nominal_si, measure);
  if (amount.low_si == amount.high_si) return nominal;
  const double above = amount.high_si - amount.nominal_si;
  const double below = amount.nominal_si - amount.low_si;
  std::vector<std::string> tries;
  if (!measure.is_point && amount.nominal_si != 0.0) {
    const double share = 100.0 * above / std::abs(amount.nominal_si);
    for (const int digits : {3, 6, 17}) {
      tries.push_back(nominal + " +/- " + base::number_text(share, digits) + " %");
    }
  }
  const Measure size = size_measure(measure);
  tries.push_back(exact_text(amount.low_si, measure) + " to " +
                  exact_text(amount.high_si, measure));
  tries.push_back(nominal + " +/- " + exact_text(above, size));
  std::string best;
  for (const std::string& text : tries) {
    if (!reads_as(text, measure, amount)) continue;
    if (best.empty() || text.size() < best.size()) best = text;
  }
  if (!best.empty()) return best;
  return nominal + " +" + exact_text(above, size) + " -" + exact_text(below, size);
}

}  // namespace tideover::quantity

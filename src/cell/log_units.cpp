#include <algorithm>
#include <array>
#include <string>

#include "base/text.hpp"
#include "cell/heading_words.hpp"
#include "cell/log_headings.hpp"

namespace tideover::cell {
namespace {

// Fahrenheit to Celsius, by definition of the former.
constexpr double celsius_per_fahrenheit = 5.0 / 9.0;

constexpr std::array<Unit, 49> units{{
    {"s", Measured::Time},
    {"sec", Measured::Time},
    {"secs", Measured::Time},
    {"second", Measured::Time},
    {"seconds", Measured::Time},
    {"sek", Measured::Time},
    {"ms", Measured::Time, 3},
    {"us", Measured::Time, 6},
    {"min", Measured::Time, 0, 60.0},
    {"mins", Measured::Time, 0, 60.0},
    {"minute", Measured::Time, 0, 60.0},
    {"minutes", Measured::Time, 0, 60.0},
    {"h", Measured::Time, 0, 3600.0},
    {"hr", Measured::Time, 0, 3600.0},
    {"hrs", Measured::Time, 0, 3600.0},
    {"hour", Measured::Time, 0, 3600.0},
    {"hours", Measured::Time, 0, 3600.0},
    {"d", Measured::Time, 0, 86400.0},
    {"day", Measured::Time, 0, 86400.0},
    {"days", Measured::Time, 0, 86400.0},
    {"v", Measured::Voltage},
    {"volt", Measured::Voltage},
    {"volts", Measured::Voltage},
    {"mv", Measured::Voltage, 3},
    {"uv", Measured::Voltage, 6},
    {"a", Measured::Current},
    {"amp", Measured::Current},
    {"amps", Measured::Current},
    {"ma", Measured::Current, 3},
    {"ua", Measured::Current, 6},
    {"ah", Measured::Charge, 0, 3600.0},
    {"mah", Measured::Charge, 3, 3600.0},
    {"as", Measured::Charge},
    {"mas", Measured::Charge, 3},
    {"degc", Measured::Temperature},
    {"c", Measured::Temperature},
    {"celsius", Measured::Temperature},
    {"degf", Measured::Temperature, 0, celsius_per_fahrenheit, -32.0 * celsius_per_fahrenheit},
    {"fahrenheit", Measured::Temperature, 0, celsius_per_fahrenheit,
     -32.0 * celsius_per_fahrenheit},
    {"k", Measured::Temperature, 0, 1.0, -273.15},
    {"ohm", Measured::Resistance},
    {"ohms", Measured::Resistance},
    {"mohm", Measured::Resistance, 3},
    {"mohms", Measured::Resistance, 3},
    {"w", Measured::Other},
    {"mw", Measured::Other, 3},
    {"wh", Measured::Other},
    {"mwh", Measured::Other, 3},
    {"percent", Measured::Other},
}};

}  // namespace

std::optional<Unit> read_unit(std::string_view text) {
  if (text.size() > 24) return std::nullopt;
  std::string word = base::lower_case(spelt_in_ascii(text));
  if (word == "%") return Unit{"percent", Measured::Other};
  std::erase_if(word, [](char c) { return c == ' ' || c == '.' || c == '*' || c == '_'; });
  const auto* const found = std::ranges::find(units, std::string_view(word), &Unit::text);
  if (found == units.end()) return std::nullopt;
  return *found;
}

}  // namespace tideover::cell

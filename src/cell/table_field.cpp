#include "cell/table_field.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/text.hpp"
#include "cell/heading_words.hpp"
#include "cell/log_fields.hpp"
#include "cell/log_number.hpp"
#include "quantity/show.hpp"
#include "quantity/text.hpp"
#include "quantity/units.hpp"

namespace tideover::cell {
namespace {

using quantity::Amount;

struct Bounds {
  double least_si;  ///< exclusive
  double most_si;
};

/// What one cell can have at all; beyond is a slip of the pen.
Bounds bounds_of(Measured measured) {
  if (measured == Measured::Charge) return {0.0, 1000.0 * 3600.0};
  if (measured == Measured::Resistance) return {0.0, 10.0};
  return {0.0, 60.0};
}

quantity::Measure measure_of(Measured measured) {
  if (measured == Measured::Charge) return quantity::measure_of<quantity::Coulomb>();
  if (measured == Measured::Resistance) return quantity::measure_of<quantity::Ohm>();
  return quantity::measure_of<quantity::Volt>();
}

std::string_view name_of(Measured measured) {
  if (measured == Measured::Charge) return "capacity";
  return measured == Measured::Resistance ? "resistance" : "voltage";
}

std::string_view example_of(Measured measured) {
  if (measured == Measured::Charge) return "2810 mAh";
  return measured == Measured::Resistance ? "38 mOhm" : "3.62 V";
}

/// Where neither field nor heading says: testers show mAh above 50, Ah below; mOhm from 1 on.
std::string_view unit_by_size(Measured measured, double number) {
  if (measured == Measured::Charge) return number > 50.0 ? "mAh" : "Ah";
  if (measured == Measured::Resistance) return number >= 1.0 ? "mOhm" : "Ohm";
  return number > 100.0 ? "mV" : "V";
}

/// Number and unit, with or without a blank between.
std::optional<Amount> plain_amount(std::string_view field, const TableColumn& column,
                                   std::string& unit_guessed) {
  const std::size_t end = std::min(field.find_first_not_of("+-0123456789.,"), field.size());
  if (end == 0) return std::nullopt;
  Unit unit = column.unit;
  if (end < field.size()) {
    const auto written = read_unit(trimmed(field.substr(end)));
    if (!written || written->measured != column.measured) return std::nullopt;
    unit = *written;
  }
  if (unit.measured == Measured::Nothing) {
    const auto number = read_number(field.substr(0, end), column.decimal);
    if (!number) return std::nullopt;
    unit_guessed = unit_by_size(column.measured, *number);
    unit = *read_unit(unit_guessed);
  }
  const auto number = read_number(field.substr(0, end), column.decimal, unit.shift);
  if (!number) return std::nullopt;
  const double si = *number * unit.factor + unit.offset;
  return Amount(si, si, si);
}

}  // namespace

base::Result<Amount> read_table_field(std::string_view field, const TableColumn& column,
                                      std::string& unit_guessed) {
  field = trimmed(field);
  std::optional<Amount> amount = plain_amount(field, column, unit_guessed);
  if (!amount) {
    std::string text(field);
    if (column.decimal == ',') std::ranges::replace(text, ',', '.');
    const auto with_tolerance =
        quantity::read_amount(text, measure_of(column.measured), quantity::Form::Value);
    if (!with_tolerance) {
      return base::Problem{{},
                           "`" + std::string(field.substr(0, 40)) + "` is no " +
                               std::string(name_of(column.measured)),
                           "Write a number with its unit, such as `" +
                               std::string(example_of(column.measured)) + "`."};
    }
    amount = with_tolerance.value();
  }
  const Bounds bounds = bounds_of(column.measured);
  if (!(amount->low_si > bounds.least_si) || !(amount->high_si <= bounds.most_si)) {
    const quantity::Measure measure = measure_of(column.measured);
    return base::Problem{{},
                         "a " + std::string(name_of(column.measured)) + " of " +
                             quantity::show_si(amount->nominal_si, measure) + " is no cell's",
                         "It must be above zero and at most " +
                             quantity::show_si(bounds.most_si, measure) + ": check the unit."};
  }
  amount->origin = quantity::Origin::Measured;
  amount->given = true;
  return *amount;
}

}  // namespace tideover::cell

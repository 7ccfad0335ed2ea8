/// Which values of a build are drawn anew for every run, and which are taken as they stand.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "build/variation.hpp"
#include "quantity/measure.hpp"
#include "quantity/spread.hpp"

namespace tideover::question {

/// A value with a tolerance.
struct DrawnValue {
  std::size_t parameter = 0;  ///< index into build::parameters_of
  std::string path;           ///< "pack.cell.capacity"
  std::string means;          ///< in the words of its kind
  quantity::Measure measure;
  quantity::Amount amount;
  quantity::Spread spread;
  std::size_t input = 0;  ///< which random number it follows
};

struct BandInputs {
  std::vector<DrawnValue> values;
  /// Of each random number what follows it: a value's path, or "volts read with MULTIMETER" for all
  /// values of one dimension that name the same meter, which are off together.
  std::vector<std::string> names;
  /// Typical or assumed values that state no tolerance and were held; those of the sheet first.
  std::vector<std::string> held;
  std::size_t held_of_sheet = 0;

  [[nodiscard]] std::size_t count() const { return names.size(); }
};

/// Needs and ranges (`20 V to 28 V`, both ends meant) are no tolerances and are left out.
[[nodiscard]] BandInputs band_inputs_of(const build::Build& build);

/// Sets all drawn values of a copy of that build; `u` are the random numbers, each in (0, 1).
void set_values(const BandInputs& inputs, std::span<const double> u_share, build::Workpiece& piece);

}  // namespace tideover::question

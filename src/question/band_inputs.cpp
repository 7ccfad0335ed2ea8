#include "question/band_inputs.hpp"

#include <algorithm>

#include "base/contract.hpp"

namespace tideover::question {

using build::Parameter;
using quantity::Origin;

namespace {

std::string meter_words(const Parameter& one, const quantity::Measure& measure) {
  std::string thing(quantity::in_words(measure));
  thing.erase(0, thing.find(' ') + 1);
  return "every " + thing + " read with " + one.amount->meter;
}

/// The random number of a value: its own, or the one that its meter has for this dimension.
std::size_t input_for(const Parameter& one, const quantity::Measure& measure,
                      std::vector<std::string>& names) {
  const std::string name = one.amount->meter.empty() ? one.path : meter_words(one, measure);
  const auto same = std::ranges::find(names, name);
  if (same != names.end()) return static_cast<std::size_t>(same - names.begin());
  names.push_back(name);
  return names.size() - 1;
}

quantity::Spread spread_of(const Parameter& one) {
  // The reader lets rounding carry a value over a limit of its range.
  const double nominal_si = one.amount->nominal_si;
  return quantity::Spread(*one.amount, std::min(one.range->lowest_si, nominal_si),
                          std::max(one.range->highest_si, nominal_si));
}

/// What nobody measured and nobody gave a tolerance; a value of nought is mostly one left out.
bool is_held(const Parameter& one) {
  const bool is_guess =
      one.amount->origin == Origin::Typical || one.amount->origin == Origin::Assumed;
  return is_guess && one.amount->nominal_si != 0.0;
}

}  // namespace

BandInputs band_inputs_of(const build::Build& build) {
  build::Build copy = build.copy();
  const std::vector<Parameter> all = build::parameters_of(copy);
  BandInputs inputs;
  std::vector<std::string> defaults;
  for (std::size_t k = 0; k < all.size(); ++k) {
    const Parameter& one = all[k];
    if (one.range->is_range || one.path.starts_with("needs.")) continue;
    if (!one.has_tolerance()) {
      if (is_held(one)) (one.amount->given ? inputs.held : defaults).push_back(one.path);
      continue;
    }
    const quantity::Measure measure = part::measure_of_field(*one.range);
    inputs.values.push_back({.parameter = k,
                             .path = one.path,
                             .means = one.field->means,
                             .measure = measure,
                             .amount = *one.amount,
                             .spread = spread_of(one),
                             .input = input_for(one, measure, inputs.names)});
  }
  inputs.held_of_sheet = inputs.held.size();
  inputs.held.insert(inputs.held.end(), defaults.begin(), defaults.end());
  return inputs;
}

void set_values(const BandInputs& inputs, std::span<const double> u_share,
                build::Workpiece& piece) {
  TIDEOVER_EXPECT(u_share.size() == inputs.count(), "a random number for each input");
  for (const DrawnValue& value : inputs.values) {
    piece.set(value.parameter, value.spread.at(u_share[value.input]));
  }
}

}  // namespace tideover::question

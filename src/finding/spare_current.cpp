#include "finding/spare_current.hpp"

#include <fmt/format.h>

#include "finding/advice.hpp"

namespace tideover::finding {

using quantity::Ampere;

std::string SpareCurrent::advice() const {
  const double upwards = charger->current.high_si / charger->current.si();
  const Ampere wanted = (1.0 - 1.001 * tight_share) * spare;
  double low = 0.0;
  double high = charger->current.si();
  for (int k = 0; k < 60; ++k) {
    const double middle = 0.5 * (low + high);
    (taken(Ampere::of_si(upwards * middle)) < wanted ? low : high) = middle;
  }
  if (low < 0.01) return fmt::format("{}: another adapter, for it alone", charger->name);
  return fmt::format("{}: current = {} or less", charger->name,
                     rounded_down(Ampere::of_si(low), Ampere::of_si(0.01)));
}

SpareCurrent spare_current(const build::Build& build, const Rails& rails,
                           const part::Adapter& adapter, const part::Charger& charger) {
  SpareCurrent found{.charger = &charger};
  found.fed = full_load_voltage(adapter);
  found.spare =
      adapter.rated.nominal() - peak_demand(build, rails, {adapter.name, "plus"}, found.fed);
  return found;
}

}  // namespace tideover::finding

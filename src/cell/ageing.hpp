/// Capacity and resistance over cycles and over the years, with what such forecasts cannot know.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "part/pack/cell.hpp"
#include "quantity/units.hpp"

namespace tideover::cell {

/// Capacities of one cell, one a cycle, or fewer.
struct CapacityRecord {
  std::string cell;
  std::vector<int> cycle;  ///< rising
  std::vector<quantity::Coulomb> capacity;
};
struct ResistanceRecord {
  std::string cell;
  std::vector<int> cycle;
  std::vector<quantity::Ohm> resistance;
};

template <class Type>
struct ForecastPoint {
  int cycle = 0;
  Type low;     ///< P5
  Type middle;  ///< P50
  Type high;    ///< P95
};

template <class Type>
struct CycleForecast {
  std::vector<ForecastPoint<Type>> points;  ///< every cycle from the record's last to the one asked
  int tried_until = 0;  ///< behind it no error of the record itself stands behind the band
  std::vector<std::string> sentences;
  std::vector<std::string> limits;  ///< what the forecast cannot know
};

/// From the record alone (numeric/fade_forecast.hpp). Problems: fewer than 24 points, cycles that
/// do not rise, values not above 0, `until` not behind the record or more than 100000 cycles off.
[[nodiscard]] base::Result<CycleForecast<quantity::Coulomb>> forecast_capacity(
    const CapacityRecord& record, int until);
[[nodiscard]] base::Result<CycleForecast<quantity::Ohm>> forecast_resistance(
    const ResistanceRecord& record, int until);

/// What is left after years in use, as a share of new.
struct YearsPoint {
  quantity::Second after;
  quantity::Ratio capacity_low;  ///< by the law that has lost most by then
  quantity::Ratio capacity_high;
  quantity::Ratio resistance_low;
  quantity::Ratio resistance_high;
};
struct YearsForecast {
  std::vector<YearsPoint> points;
  quantity::Second life;  ///< at the temperature asked; 0 where the row states none
  std::vector<std::string> sentences;
  std::vector<std::string> limits;
};

/// From the row's `life` until its `end_of_life_capacity` and `end_of_life_resistance`, halved for
/// each 10 K that the cells are kept warmer than `stated_at`. (For lithium cells between 25 and 35
/// degC this is Arrhenius' law at 53 kJ/mol; one manual of a lead-acid block prints it for its
/// float life: 15 years at 20 degC, 7.5 at 30 degC. Another halves per 8 K.) Before and behind that
/// life two laws make the band: loss with the square root of time, as a film grows that hinders its
/// own growth (Ploehn, Ramadass and White, J. Electrochem. Soc. 151 (2004) A456, from memory), and
/// in proportion to time. `years` rise; none below 0.
[[nodiscard]] YearsForecast forecast_years(const part::Cell& kind, quantity::Temperature stated_at,
                                           quantity::Temperature kept_at,
                                           const std::vector<quantity::Second>& years);

}  // namespace tideover::cell

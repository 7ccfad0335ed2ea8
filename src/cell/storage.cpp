#include "cell/storage.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/text.hpp"
#include "cell/rest_charge.hpp"
#include "quantity/show.hpp"

namespace tideover::cell {

using namespace quantity;

namespace {

constexpr double month_s = 30.0 * 86400.0;
constexpr double reference_celsius = 25.0;

std::string percent(double share) { return base::number_text(100.0 * share, 2) + " %"; }

/// Share of charge lost in 30 days at 25 degC.
struct Rate {
  double slow_share = 0.0;
  double middle_share = 0.0;
  double fast_share = 0.0;
};

/// A share that can be lost: not all of it, and not less than nothing.
double as_loss(double share) { return std::clamp(share, 0.0, 0.99); }

Rate rate_of(const part::Cell& kind, const std::optional<SelfDischarge>& measured) {
  if (measured) {
    const double middle = measured->per_month.si();
    const double error = 2.0 * measured->error.si();
    return {as_loss(middle - error), as_loss(middle), as_loss(middle + error)};
  }
  const auto& row = kind.self_discharge;
  if (row.high_si > row.low_si) return {row.low_si, row.nominal_si, as_loss(row.high_si)};
  return {0.5 * row.nominal_si, row.nominal_si, as_loss(2.0 * row.nominal_si)};
}

/// Time in which a charge falls by `share` of it each 30 days, from one level to another.
Second time_between(double from_share, double to_share, double share, double warm_factor) {
  if (from_share <= to_share) return {};
  const double per_s = -std::log1p(-share) / month_s * warm_factor;
  if (per_s <= 0.0) return Second::of_si(std::numeric_limits<double>::infinity());
  return Second::of_si(std::log(from_share / to_share) / per_s);
}

/// Years or months, as one speaks of storing.
std::string long_time(Second time) {
  constexpr double year_s = 365.25 * 86400.0;
  if (!std::isfinite(time.si()) || time.si() > 20.0 * year_s) return "more than 20 years";
  if (time.si() >= 2.0 * year_s) return base::number_text(time.si() / year_s, 2) + " years";
  if (time.si() >= 2.0 * month_s) return base::number_text(time.si() / month_s, 2) + " months";
  return base::number_text(time.si() / 86400.0, 2) + " days";
}

}  // namespace

StorageLevel storage_level(const part::Cell& kind) {
  StorageLevel level;
  const bool is_lead = kind.chemistry == part::Chemistry::LeadAcid;
  level.low = Ratio::of_si(is_lead ? 0.95 : 0.4);
  level.high = Ratio::of_si(is_lead ? 1.0 : 0.5);
  level.low_voltage = rest_voltage_at(kind, level.low);
  level.high_voltage = rest_voltage_at(kind, level.high);
  if (is_lead) {
    level.sentence = "Leave it full, at " + show(level.low_voltage, 4) +
                     " or more at rest, and charge it up again every few months.";
    level.source = "common practice, no source";
    return level;
  }
  level.sentence = "Leave the cells at " + percent(level.low.si()) + " to " +
                   percent(level.high.si()) +
                   " charge, cool and dry: " + show(level.low_voltage, 4) + " to " +
                   show(level.high_voltage, 4) + " at rest.";
  if (kind.chemistry == part::Chemistry::Lfp) {
    level.sentence +=
        " The voltage hardly tells the charge of these cells: empty one, then charge "
        "it by the counted ampere-hours.";
  }
  level.source =
      "one year at 25 degC: 96 % recoverable when kept at 40 %, 80 % when kept full; "
      "akori.fr and ecomodder.com, read";
  return level;
}

StorageTime storage_time(const part::Cell& kind, Volt voltage, Temperature at,
                         const std::optional<SelfDischarge>& measured) {
  const Rate rate = rate_of(kind, measured);
  const double warmer_k = at.celsius() - reference_celsius;
  const double warm_factor = std::exp2(warmer_k / kind.self_discharge_doubles.si());
  StorageTime time;
  time.charge = charge_at_rest(kind, voltage);
  time.floor = std::max(storage_reserve, charge_at_rest(kind, kind.discharge_to.nominal()));
  time.floor_voltage = rest_voltage_at(kind, time.floor);
  const auto until_floor = [&](double share) {
    return time_between(time.charge.si(), time.floor.si(), share, warm_factor);
  };
  time.soonest = until_floor(rate.fast_share);
  time.middle = until_floor(rate.middle_share);
  time.latest = until_floor(rate.slow_share);
  time.source =
      std::string(measured ? "self-discharge as measured, twice its standard error either "
                             "way"
                           : "self-discharge of the class") +
      "; the reserve of " + percent(storage_reserve.si()) + " is common practice, no source";
  if (time.charge <= time.floor) {
    time.sentence = "At " + show(voltage, 4) + " a cell is as good as empty (" +
                    percent(time.charge.si()) + "): charge it now, if it was not far below.";
    return time;
  }
  time.sentence = "From rest at " + show(voltage, 4) + " (" + percent(time.charge.si()) +
                  " charge) at " + show(at) + " it takes " + long_time(time.soonest) + " to " +
                  long_time(time.latest) + ", by the middle figure " + long_time(time.middle) +
                  ", until " + show(time.floor_voltage, 3) + " (" + percent(time.floor.si()) +
                  ") is a worry. Look at the voltages every six months all the same.";
  return time;
}

}  // namespace tideover::cell

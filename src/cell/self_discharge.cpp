#include "cell/self_discharge.hpp"

#include <algorithm>
#include <cmath>

#include "cell/rest_charge.hpp"

namespace tideover::cell {

using namespace quantity;

namespace {

constexpr int least_days = 7;
constexpr double day_s = 86400.0;
constexpr double month_s = 30.0 * day_s;  // as part/pack states self-discharge

Volt error_of(const Value<Volt>& reading) {
  const Volt stated = Volt::of_si(0.5 * (reading.high_si - reading.low_si));
  return stated.si() > 0.0 ? stated : assumed_reading_error;
}

}  // namespace

std::optional<SelfDischarge> self_discharge_of(const TestedCell& tested, const part::Cell& kind) {
  const auto& readings = tested.rest_voltages;
  if (readings.empty() || !readings.back().day) return std::nullopt;
  const RestVoltage& last = readings.back();
  std::size_t first = readings.size() - 1;
  while (first > 0 && readings[first - 1].day) {
    const auto& before = readings[first - 1].voltage;
    const auto& after = readings[first].voltage;
    const bool was_charged =
        after.nominal() - before.nominal() > error_of(after) + error_of(before);
    if (was_charged) break;
    --first;
  }
  const RestVoltage& begin = readings[first];
  const int days = *last.day - *begin.day;
  if (days < least_days) return std::nullopt;
  const double from_share = charge_at_rest(kind, begin.voltage.nominal()).si();
  const double to_share = charge_at_rest(kind, last.voltage.nominal()).si();
  if (from_share <= 0.0 || to_share <= 0.0) return std::nullopt;
  const double months = days * day_s / month_s;
  const double rate = std::log(from_share / to_share) / months;
  const double from_error =
      charge_error(kind, begin.voltage.nominal(), error_of(begin.voltage)).si() / from_share;
  const double to_error =
      charge_error(kind, last.voltage.nominal(), error_of(last.voltage)).si() / to_share;
  const double left = std::exp(-rate);
  return SelfDischarge{
      Ratio::of_si(1.0 - left), Ratio::of_si(left * std::hypot(from_error, to_error) / months),
      begin.voltage.nominal(), last.voltage.nominal(), Second::of_si(days * day_s)};
}

}  // namespace tideover::cell

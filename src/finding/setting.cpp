#include "finding/setting.hpp"

#include <algorithm>
#include <array>

#include "base/contract.hpp"
#include "finding/rules.hpp"
#include "part/charger/charger.hpp"
#include "part/converter/converter.hpp"

namespace tideover::finding {

namespace {

template <class Q>
Setting setting(const part::Part& part, const char* key, const quantity::Value<Q>& value) {
  return {part.name, key, value, quantity::measure_of<Q>(),
          Q::dimension == quantity::Ampere::dimension};
}

/// The build with that setting exactly at `value_si`.
build::Build moved(const build::Build& build, const Setting& setting, double value_si) {
  build::Build twin = build.copy();
  for (const auto& part : twin.parts) {
    if (part->name != setting.part) continue;
    const part::Field* const field = part->description().find(setting.key);
    TIDEOVER_EXPECT(field != nullptr, "a setting is a field of its part");
    quantity::Amount& amount = std::get<part::AmountField>(field->what).amount(*part);
    amount.nominal_si = amount.low_si = amount.high_si = value_si;
  }
  return twin;
}

std::size_t failing(const build::Build& build) {
  const auto all = check({build, {}});
  return static_cast<std::size_t>(std::ranges::count_if(
      all, [](const Found& one) { return one.finding.answer == Answer::Fails; }));
}

/// How far the setting can go in one direction, as a share, up to twice `widest_setting_share`.
double room(const build::Build& build, const Setting& setting, double sign) {
  const double value_si = setting.value.nominal_si;
  const std::size_t now = failing(moved(build, setting, value_si));
  double kept = 0.0;
  double most = 2.0 * widest_setting_share;
  if (failing(moved(build, setting, value_si * (1.0 + sign * most))) <= now) return most;
  while (most - kept > 1e-4) {
    const double middle = 0.5 * (kept + most);
    (failing(moved(build, setting, value_si * (1.0 + sign * middle))) <= now ? kept : most) =
        middle;
  }
  return kept;
}

/// Whether fewer findings fail at some other setting, within what one would still turn it to.
bool is_to_change(const build::Build& build, const Setting& setting) {
  constexpr std::array factors{0.3, 0.5, 0.7, 0.85, 0.95, 0.98, 1.02, 1.05, 1.2};
  const std::size_t now = failing(moved(build, setting, setting.value.nominal_si));
  return now > 0 && std::ranges::any_of(factors, [&](double factor) {
           return failing(moved(build, setting, factor * setting.value.nominal_si)) < now;
         });
}

}  // namespace

std::vector<Setting> settings_of(const build::Build& build) {
  std::vector<Setting> all;
  for (const auto& part : build.parts) {
    if (const auto* const charger = dynamic_cast<const part::Charger*>(part.get())) {
      all.push_back(setting(*part, "voltage", charger->voltage));
      all.push_back(setting(*part, "current", charger->current));
    } else if (const auto* const board = dynamic_cast<const part::Converter*>(part.get())) {
      all.push_back(setting(*part, "output", board->output));
    }
  }
  return all;
}

std::optional<double> tolerance_share_of(const build::Build& build, const Setting& setting) {
  if (is_to_change(build, setting)) return std::nullopt;
  double share = 0.5 * std::min(room(build, setting, 1.0), room(build, setting, -1.0));
  const quantity::Amount& value = setting.value;
  const double stated =
      std::max(value.high_si - value.nominal_si, value.nominal_si - value.low_si) /
      value.nominal_si;
  if (stated > 0.0) share = std::min(share, stated);
  return std::clamp(share, nearest_setting_share, widest_setting_share);
}

}  // namespace tideover::finding

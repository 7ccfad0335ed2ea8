/// What is adjusted with a screwdriver, and how far it may be off.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "build/build.hpp"
#include "quantity/measure.hpp"

namespace tideover::finding {

/// One adjustment of a charger or converter.
struct Setting {
  std::string part;
  std::string key;  ///< of the sheet: "voltage", "current", "output"
  quantity::Amount value;
  quantity::Measure measure;
  bool is_current = false;
};
/// In the order of the sheet: of a charger both limits, of a converter its output.
[[nodiscard]] std::vector<Setting> settings_of(const build::Build& build);

/// No setting is trusted to more, or asked to be nearer, than this: what slips with age and warmth,
/// and what a meter and a turn of the screw can do. Common practice, no source.
inline constexpr double widest_setting_share = 0.02;
inline constexpr double nearest_setting_share = 0.002;

/// The share by which a setting may be off either way: half of how far it can move before the first
/// finding from the sheet fails that does not fail now, and no more than the sheet's own tolerance,
/// within the two ends above. Nothing where another setting makes a finding hold that fails now:
/// then it is the setting itself that has to change.
[[nodiscard]] std::optional<double> tolerance_share_of(const build::Build& build,
                                                       const Setting& setting);

}  // namespace tideover::finding

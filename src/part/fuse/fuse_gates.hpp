/// The time-current gates of fuse standards, as data with their sources.
///
/// A gate is a band: at that multiple of the rated current a fuse opens no sooner and no later.
/// Editions and makers differ; a fuse whose datasheet prints other gates states its own.
#pragma once

#include <limits>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/units.hpp"

namespace tideover::part {

enum class FuseStyle {
  Quick,                ///< IEC 60127-2 sheets 1 and 2, F
  TimeLag,              ///< IEC 60127-2 sheet 3, T, low breaking capacity
  TimeLagHighBreaking,  ///< IEC 60127-2 sheet 5, T, high breaking capacity
  Ul,                   ///< UL 248-14
  UlTimeDelay,          ///< UL 248-14, time delay
  Blade,                ///< ISO 8820-3
  LargeBlade,           ///< ISO 8820-3, the large type
  Own,                  ///< gates stated with the part
};

/// In the order of FuseStyle.
[[nodiscard]] std::vector<std::string_view> words_for_fuse_styles();

inline constexpr double for_good_s = std::numeric_limits<double>::infinity();

/// At `multiple` times rated current: `at_least_s` (0: no limit) <= opening time <= `at_most_s`
/// (for_good_s: it need not open).
struct Gate {
  double multiple = 1.0;
  double at_least_s = 0.0;
  double at_most_s = for_good_s;
  bool is_assumed = false;  ///< ours, where the standard sets no limit

  /// The fuse carries this current: it has no latest time, only an earliest.
  [[nodiscard]] bool is_holding() const { return at_most_s == for_good_s; }
};

/// Gates of one style for rated currents up to `up_to`, from the next smaller sheet's end.
struct GateSheet {
  FuseStyle style{};
  quantity::Ampere from;
  quantity::Ampere up_to;
  std::vector<Gate> gates;  ///< multiples rising
  double cools_s = 1.0;     ///< time constant in which a fuse element forgets a pulse; assumed
  std::string source;
};

/// All sheets, by style and rising rated current.
[[nodiscard]] const std::vector<GateSheet>& gate_sheets();
/// The sheet for a rated current; nullptr if the style's standard has none.
[[nodiscard]] const GateSheet* find_gates(FuseStyle style, quantity::Ampere rated);
/// Share of its rated current that a fuse of this style may carry for good at 25 degC.
/// 75 % for UL-rated parts: EDN, 26 September 1996, read; taken for blades too (common practice);
/// 100 % for IEC-rated ones (from memory).
[[nodiscard]] quantity::Ratio continuous_share(FuseStyle style);

}  // namespace tideover::part

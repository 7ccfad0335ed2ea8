/// What the supply takes while all is well, and how long it keeps when nothing feeds it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "build/build.hpp"
#include "run/record.hpp"

namespace tideover::question {

/// Mean of one part over the first stretch with mains.
struct MeanPower {
  std::string part;
  quantity::Watt power;
};

struct Standby {
  std::vector<MeanPower> adapters;  ///< what each gives
  quantity::Watt loads;             ///< what the loads take together
  quantity::Watt supply;            ///< the difference: what the supply itself takes
  quantity::Watt pack;              ///< what the pack gives; negative while it is charged
};

/// All zero where the record has no stretch with mains before its first outage.
[[nodiscard]] Standby standby_of(const build::Build& build, const run::Record& record);

/// How much of its rating an adapter gives, from its channel "share of rating".
struct HeadRoom {
  std::string adapter;
  std::size_t channel = 0;
  quantity::Ratio standby;  ///< mean share over the first stretch with mains
  run::Extreme highest;     ///< however short: output capacitors count too
  run::Extreme lasting;     ///< the share reached or exceeded for a second in all
  quantity::Second near;    ///< how long in all it was above nine tenths of its rating
};

/// An adapter or part this near to its rating is tight. Common practice, no source.
inline constexpr double tight_rating = 0.9;

[[nodiscard]] std::vector<HeadRoom> head_room_of(const build::Build& build,
                                                 const run::Record& record);

/// How long the weakest group of a pack stays above its lowest voltage.
struct Keeping {
  std::optional<quantity::Second> lasts;  ///< from `from`; empty: longer than watched
  quantity::Second from;                  ///< instant of the record
  quantity::Second watched;
  std::string group;       ///< "pack, group 3"
  bool was_tried = false;  ///< false: no run could tell
};
/// From the pack's cut-off on, or from the start of the record where there is none. A group that
/// is below its limit for less than an hour after `from` is resting from its discharge.
[[nodiscard]] Keeping keeping_of(const build::Build& build, const run::Record& record);

}  // namespace tideover::question

/// How to leave cells until they are built in, and how long a rest can last.
///
/// Lithium cells keep best at about 40 to 50 % of charge: kept at 40 % for a year one retains 96 %
/// of its capacity at 25 degC, kept full 80 % (akori.fr and ecomodder.com, both read).
/// Lead-acid batteries are kept full, since those that stand empty sulphate (from memory).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cell/self_discharge.hpp"
#include "part/pack/cell.hpp"

namespace tideover::cell {

struct StorageLevel {
  quantity::Ratio low;  ///< share of charge
  quantity::Ratio high;
  quantity::Volt low_voltage;  ///< at rest
  quantity::Volt high_voltage;
  std::string sentence;
  std::string source;
};
[[nodiscard]] StorageLevel storage_level(const part::Cell& kind);

/// Charge kept in hand above empty: what is left there is soon gone into a board or a leak (common
/// practice, no source).
inline constexpr quantity::Ratio storage_reserve = quantity::Ratio::of_si(0.05);

/// How long a rest lasts until it becomes a worry.
struct StorageTime {
  quantity::Ratio charge;        ///< at the start
  quantity::Ratio floor;         ///< where the worry begins
  quantity::Volt floor_voltage;  ///< at rest
  quantity::Second soonest;      ///< at the fastest self-discharge; 0 where it begins as a worry
  quantity::Second middle;
  quantity::Second latest;  ///< at the slowest; infinite if it may be none
  std::string sentence;
  std::string source;
};

/// From rest at `voltage`, kept at `at`. The charge falls by a share that the class, or the
/// measured figure with twice its standard error, gives for 30 days, and that doubles with each
/// `self_discharge_doubles` of warming from 25 degC; a measured figure is taken to be of that
/// temperature. Where the class states no tolerance, half and twice its figure are the band:
/// sources for sound lithium cells reach from 1 to 3 % a month (daviddarling.info, hdp-power.com,
/// read). Without a board and its drain, which counts from the day it is joined.
[[nodiscard]] StorageTime storage_time(const part::Cell& kind, quantity::Volt voltage,
                                       quantity::Temperature at,
                                       const std::optional<SelfDischarge>& measured = {});

}  // namespace tideover::cell

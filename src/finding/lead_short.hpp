/// A short circuit behind a lead: what it draws, and how long the lead stands that.
#pragma once

#include <optional>
#include <vector>

#include "finding/lead_guard.hpp"

namespace tideover::finding {

/// Between the most and the least that a source drives.
struct ShortCurrent {
  quantity::Ampere highest;  ///< at the lead's near end, of a new and full pack
  quantity::Ampere lowest;   ///< at its far end, of a worn and empty one
};
/// Along a lead towards the users. Precondition: the source feeds both its ends.
[[nodiscard]] ShortCurrent short_along(const Feeding& feeding, const Source& source,
                                       const build::Lead& lead);
/// At a terminal that the source feeds.
[[nodiscard]] ShortCurrent short_at(const Feeding& feeding, const Source& source,
                                    const build::TerminalName& at);
/// By the source that may drive most through a guarded lead.
[[nodiscard]] ShortCurrent short_behind(const Feeding& feeding, const LeadGuard& guard);

/// Until then the heat of a short circuit stays in the conductor: IEC 60364-4-43, 434.5.2, from
/// memory.
inline constexpr quantity::Second adiabatic_until = quantity::Second::of_si(5.0);
/// What a lead may carry for an hour as a multiple of what it carries for good: IEC 60364-4-43,
/// 433.1, from memory.
inline constexpr double for_an_hour_share = 1.45;
inline constexpr quantity::Second overload_until = quantity::Second::of_si(3600.0);

/// How long a lead stands a current, in one falling line made of both rules above and its ampacity:
/// for good up to that (nothing), an hour up to 1.45 times as much, above that 5 s or what its
/// let-through energy allows.
[[nodiscard]] std::optional<quantity::Second> standing_time(const part::Wire& wire,
                                                            quantity::Ampere current,
                                                            quantity::Temperature air);

/// The currents at which that line bends or drops, rising.
[[nodiscard]] std::vector<quantity::Ampere> standing_corners(const part::Wire& wire,
                                                             quantity::Temperature air);

}  // namespace tideover::finding

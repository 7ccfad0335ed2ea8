/// Events that come round and round.
#pragma once

#include <vector>

#include "run/record.hpp"

namespace tideover::run {

/// Words of one part that repeat at least this often within one stretch of the timeline, no
/// interval a hundred times another: a cycle of the build's own making, not a daily routine.
inline constexpr int chatter_least = 6;

[[nodiscard]] std::vector<Chatter> find_chatter(const std::vector<Event>& events,
                                                const std::vector<StretchSpan>& stretches);

}  // namespace tideover::run

/// Times as people say them.
#pragma once

#include <string>

namespace tideover::drawing {

inline constexpr double minute_s = 60.0;
inline constexpr double hour_s = 3600.0;
inline constexpr double day_s = 86400.0;
/// The Julian year of 365.25 days. Source: IAU Style Manual (1989), from memory.
inline constexpr double year_s = 365.25 * day_s;

/// `30 min`, `1 h 15 min`, `2.5 ms`, `3 days 6 h`, `0`: to the nearest `resolution_s` (> 0), zero
/// parts left out. Within 1000 years of zero.
[[nodiscard]] std::string time_label(double seconds, double resolution_s);

/// To about three figures, as a sentence has it: `2 h 14 min`, `12.4 s`, `35 ms`.
[[nodiscard]] std::string duration_in_words(double seconds);

}  // namespace tideover::drawing

/// Small phrases that sentences about a run share.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "finding/instant.hpp"
#include "question/outage.hpp"

namespace tideover::question {

/// "the device", "both devices", "all three devices".
[[nodiscard]] std::string devices_in_words(const std::vector<Serving>& servings);

/// "5 h 10 min", "12 ms".
[[nodiscard]] std::string show_time(quantity::Second time);

/// "when the mains goes", "during the outage", "when the mains comes back".
[[nodiscard]] std::string in_words(Interruption::When when);

/// How long the interruptions of one sort are: "12 ms, 2 s"; of more than three "110 times 80 ms to
/// 114 ms"; empty where there are none.
[[nodiscard]] std::string lengths_in_words(const std::vector<Interruption>& interruptions,
                                           Interruption::When when);

/// An instant as one would tell it: "12 ms after the mains goes", "9 h after the mains is back",
/// "20 min from the start" (before the first outage).
[[nodiscard]] std::string show_instant(quantity::Second at, const std::vector<Outage>& outages);

using finding::show_value;

/// With a capital letter where it begins with a plain one.
[[nodiscard]] std::string capitalised(std::string_view words);

/// "1 timeline", "3 timelines".
[[nodiscard]] std::string counted(std::size_t count, const std::string& thing);

}  // namespace tideover::question

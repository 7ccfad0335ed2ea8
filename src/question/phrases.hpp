/// Small phrases that sentences about a run share.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "question/outage.hpp"

namespace tideover::question {

/// "the device", "both devices", "all three devices".
[[nodiscard]] std::string devices_in_words(const std::vector<Serving>& servings);

/// "5 h 10 min", "12 ms".
[[nodiscard]] std::string show_time(quantity::Second time);

/// "when the mains goes", "during the outage", "when the mains comes back".
[[nodiscard]] std::string in_words(Interruption::When when);

/// An instant as one would tell it: "12 ms after the mains goes", "9 h after the mains is back",
/// "20 min from the start" (before the first outage).
[[nodiscard]] std::string show_instant(quantity::Second at, const std::vector<Outage>& outages);

/// A channel's value: "24.1 V", "38 degC".
[[nodiscard]] std::string show_value(const run::ChannelInfo& channel, double value_si);

/// Two values of one channel, with as many digits as it takes to tell them apart: a comparison that
/// fails is never printed as "0 degC against 0 degC".
[[nodiscard]] std::pair<std::string, std::string> show_apart(const run::ChannelInfo& channel,
                                                             double a_si, double b_si);

/// A part or lead of a record as one would call it: "f_sea", "lead sea_cable_plus".
[[nodiscard]] std::string name_in_words(std::string_view part);

/// "1 timeline", "3 timelines".
[[nodiscard]] std::string counted(std::size_t count, const std::string& thing);

}  // namespace tideover::question

/// Instants and values of a run, as one would tell them.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "run/record.hpp"

namespace tideover::finding {

/// A time in which an adapter is without mains.
struct Dark {
  quantity::Second begins;
  quantity::Second ends;
  bool mains_returns = false;  ///< else the record ends in it
};
/// In the order in which they begin; stretches without mains that follow each other are one.
[[nodiscard]] std::vector<Dark> darks_of(const run::Record& record);

/// "12 ms after the mains goes", "9 h after the mains is back", "20 min from the start" (before
/// the first).
[[nodiscard]] std::string show_instant(quantity::Second at, const std::vector<Dark>& darks);

/// A channel's value: "24.1 V", "38 degC".
[[nodiscard]] std::string show_value(const run::ChannelInfo& channel, double value_si);

/// Two values of one channel, with as many digits as it takes to tell them apart: a comparison that
/// fails is never printed as "0 degC against 0 degC".
[[nodiscard]] std::pair<std::string, std::string> show_apart(const run::ChannelInfo& channel,
                                                             double a_si, double b_si);

}  // namespace tideover::finding

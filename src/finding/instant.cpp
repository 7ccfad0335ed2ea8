#include "finding/instant.hpp"

#include "quantity/show.hpp"

namespace tideover::finding {

std::vector<Dark> darks_of(const run::Record& record) {
  std::vector<Dark> darks;
  bool is_dark = false;
  for (const run::StretchSpan& span : record.stretches) {
    if (span.has_mains && is_dark) darks.back().mains_returns = true;
    if (!span.has_mains && !is_dark) darks.push_back({.begins = span.begins});
    if (!span.has_mains) darks.back().ends = span.ends;
    is_dark = !span.has_mains;
  }
  return darks;
}

std::string show_instant(quantity::Second at, const std::vector<Dark>& darks) {
  const Dark* last = nullptr;
  for (const Dark& dark : darks) {
    if (dark.begins <= at) last = &dark;
  }
  if (last == nullptr) {
    return at.si() <= 0.0 ? "at the start" : quantity::show(at) + " from the start";
  }
  std::string which;
  if (darks.size() > 1) which = " (outage " + std::to_string(last - darks.data() + 1) + ")";
  if (last->mains_returns && at > last->ends) {
    return quantity::show(at - last->ends) + " after the mains is back" + which;
  }
  if (last->mains_returns && at == last->ends) return "as the mains comes back" + which;
  if (at == last->begins) return "as the mains goes" + which;
  return quantity::show(at - last->begins) + " after the mains goes" + which;
}

std::string show_value(const run::ChannelInfo& channel, double value_si) {
  return quantity::show_si(value_si, {channel.dimension, channel.is_temperature});
}

std::pair<std::string, std::string> show_apart(const run::ChannelInfo& channel, double a_si,
                                               double b_si) {
  constexpr int most_digits = 9;
  const quantity::Measure measure{channel.dimension, channel.is_temperature};
  std::pair<std::string, std::string> shown;
  for (int digits = 3; digits <= most_digits; ++digits) {
    shown = {quantity::show_si(a_si, measure, digits), quantity::show_si(b_si, measure, digits)};
    if (shown.first != shown.second || a_si == b_si) break;
  }
  return shown;
}

}  // namespace tideover::finding

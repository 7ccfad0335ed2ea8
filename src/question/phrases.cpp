#include "question/phrases.hpp"

#include <array>

#include "quantity/show.hpp"

namespace tideover::question {

std::string devices_in_words(const std::vector<Serving>& servings) {
  constexpr std::array<std::string_view, 10> counts{"three", "four", "five", "six",    "seven",
                                                    "eight", "nine", "ten",  "eleven", "twelve"};
  const std::size_t count = servings.size();
  if (count <= 1) return "the device";
  if (count == 2) return "both devices";
  if (count - 3 < counts.size()) return "all " + std::string(counts[count - 3]) + " devices";
  return "all " + std::to_string(count) + " devices";
}

std::string show_time(quantity::Second time) { return quantity::show(time); }

std::string in_words(Interruption::When when) {
  switch (when) {
    case Interruption::When::AtLoss: return "when the mains goes";
    case Interruption::When::During: return "during the outage";
    case Interruption::When::AtReturn: break;
  }
  return "when the mains comes back";
}

std::string show_instant(quantity::Second at, const std::vector<Outage>& outages) {
  const Outage* last = nullptr;
  for (const Outage& outage : outages) {
    if (outage.begins <= at) last = &outage;
  }
  if (last == nullptr) return at.si() <= 0.0 ? "at the start" : show_time(at) + " from the start";
  std::string which;
  if (outages.size() > 1) {
    which = " (outage " + std::to_string(last - outages.data() + 1) + ")";
  }
  if (last->mains_returns && at > last->ends) {
    return show_time(at - last->ends) + " after the mains is back" + which;
  }
  if (last->mains_returns && at == last->ends) return "as the mains comes back" + which;
  if (at == last->begins) return "as the mains goes" + which;
  return show_time(at - last->begins) + " after the mains goes" + which;
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

std::string name_in_words(std::string_view part) {
  constexpr std::string_view prefix = "leads.";
  return part.starts_with(prefix) ? "lead " + std::string(part.substr(prefix.size()))
                                  : std::string(part);
}

std::string counted(std::size_t count, const std::string& thing) {
  return std::to_string(count) + " " + thing + (count == 1 ? "" : "s");
}

}  // namespace tideover::question

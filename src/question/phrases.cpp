#include "question/phrases.hpp"

#include <algorithm>
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

std::string lengths_in_words(const std::vector<Interruption>& interruptions,
                             Interruption::When when) {
  constexpr std::size_t most_told = 3;
  std::vector<quantity::Second> lengths;
  for (const Interruption& one : interruptions) {
    if (one.when == when) lengths.push_back(one.length());
  }
  if (lengths.size() > most_told) {
    std::ranges::sort(lengths);
    const std::string shortest = show_time(lengths.front());
    const std::string longest = show_time(lengths.back());
    return std::to_string(lengths.size()) + " times " + shortest +
           (longest == shortest ? "" : " to " + longest);
  }
  std::string text;
  for (const quantity::Second length : lengths) {
    text += (text.empty() ? "" : ", ") + show_time(length);
  }
  return text;
}

std::string show_instant(quantity::Second at, const std::vector<Outage>& outages) {
  std::vector<finding::Dark> darks;
  darks.reserve(outages.size());
  for (const Outage& outage : outages) {
    darks.push_back({outage.begins, outage.ends, outage.mains_returns});
  }
  return finding::show_instant(at, darks);
}

std::string capitalised(std::string_view words) {
  std::string text(words);
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') {
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  }
  return text;
}

std::string counted(std::size_t count, const std::string& thing) {
  return std::to_string(count) + " " + thing + (count == 1 ? "" : "s");
}

}  // namespace tideover::question

#include "run/chatter.hpp"

#include <algorithm>
#include <map>
#include <tuple>

namespace tideover::run {

using quantity::Second;

namespace {

/// The longest run of neighbouring instants whose gaps stay within a hundred times the shortest.
Chatter longest_series(const std::vector<Second>& instants) {
  Chatter best;
  std::size_t begin = 0;
  double shortest_s = 0.0;
  for (std::size_t k = 1; k < instants.size(); ++k) {
    const double gap_s = (instants[k] - instants[k - 1]).si();
    const bool first = k == begin + 1;
    if (!first && (gap_s > 100.0 * shortest_s || gap_s * 100.0 < shortest_s)) begin = k - 1;
    shortest_s = k == begin + 1 ? gap_s : std::min(shortest_s, gap_s);
    const int times = static_cast<int>(k - begin) + 1;
    if (times <= best.times) continue;
    best.times = times;
    best.first = instants[begin];
    best.last = instants[k];
    best.period = (instants[k] - instants[begin]) / static_cast<double>(times - 1);
  }
  return best;
}

std::size_t stretch_at(const std::vector<StretchSpan>& stretches, Second instant) {
  std::size_t k = 0;
  while (k + 1 < stretches.size() && stretches[k + 1].begins <= instant) ++k;
  return k;
}

}  // namespace

std::vector<Chatter> find_chatter(const std::vector<Event>& events,
                                  const std::vector<StretchSpan>& stretches) {
  std::map<std::tuple<std::string, std::string, std::size_t>, std::vector<Second>> instants;
  for (const Event& event : events) {
    instants[{event.part, event.words, stretch_at(stretches, event.at)}].push_back(event.at);
  }
  std::vector<Chatter> chatters;
  for (const auto& [what, when] : instants) {
    Chatter chatter = longest_series(when);
    if (chatter.times < chatter_least) continue;
    chatter.part = std::get<0>(what);
    chatter.words = std::get<1>(what);
    chatters.push_back(std::move(chatter));
  }
  return chatters;
}

}  // namespace tideover::run

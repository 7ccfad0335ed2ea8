#include "cell/log_state.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "cell/heading_words.hpp"

namespace tideover::cell {
namespace {

constexpr std::array<std::string_view, 14> resting{"rest", "resting", "r",     "pause",   "paused",
                                                   "idle", "wait",    "stop",  "stopped", "off",
                                                   "ocv",  "none",    "relax", "ruhe"};

}  // namespace

std::optional<Direction> direction_of(std::string_view word) {
  if (word.empty() || word.size() > 40) return std::nullopt;
  const std::vector<std::string> words = words_of(word);
  const auto any = [&words](auto fits) { return std::ranges::any_of(words, fits); };
  if (any([](std::string_view w) { return w == "d" || is_word(w, Word::Discharging); }))
    return Direction::Discharging;
  if (any([](std::string_view w) { return w == "c" || is_word(w, Word::Charging); }))
    return Direction::Charging;
  if (any([](std::string_view w) { return std::ranges::find(resting, w) != resting.end(); }))
    return Direction::Resting;
  return std::nullopt;
}

}  // namespace tideover::cell

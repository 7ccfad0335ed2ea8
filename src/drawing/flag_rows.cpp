#include "drawing/flag_rows.hpp"

#include <cmath>
#include <cstddef>

namespace tideover::drawing {

namespace {

// One pole serves all flags of an instant; what stands this close is drawn as one line.
constexpr double same_pole_mm = 0.05;

bool pole_cuts(double pole_x_mm, FlagExtent words) {
  return pole_x_mm > words.left_mm - flag_clearance_mm &&
         pole_x_mm < words.right_mm + flag_clearance_mm;
}

bool apart(FlagExtent a, FlagExtent b) {
  return a.right_mm + flag_clearance_mm <= b.left_mm || b.right_mm + flag_clearance_mm <= a.left_mm;
}

bool clear_of(const Flag& flag, FlagPlace place, const Flag& other, FlagPlace other_place) {
  const FlagExtent words = flag_extent(flag, place);
  const FlagExtent other_words = flag_extent(other, other_place);
  if (place.row == other_place.row && !apart(words, other_words)) return false;
  if (std::abs(flag.x_mm - other.x_mm) < same_pole_mm) return true;
  if (other_place.row >= place.row && pole_cuts(other.x_mm, words)) return false;
  return !(place.row >= other_place.row && pole_cuts(flag.x_mm, other_words));
}

}  // namespace

FlagExtent flag_extent(const Flag& flag, FlagPlace place) {
  if (place.leftward) {
    return {flag.x_mm - flag_clearance_mm - flag.width_mm, flag.x_mm - flag_clearance_mm};
  }
  return {flag.x_mm + flag_clearance_mm, flag.x_mm + flag_clearance_mm + flag.width_mm};
}

std::optional<std::vector<FlagPlace>> place_flags(std::span<const Flag> flags, double left_mm,
                                                  double right_mm, int rows) {
  std::vector<FlagPlace> places(flags.size());
  const auto fits = [&](std::size_t index, FlagPlace place) {
    const FlagExtent words = flag_extent(flags[index], place);
    if (words.left_mm < left_mm || words.right_mm > right_mm) return false;
    for (std::size_t other = index + 1; other < flags.size(); ++other) {
      if (!clear_of(flags[index], place, flags[other], places[other])) return false;
    }
    return true;
  };
  // From the right: a flag's words reach over the poles of later events, which are then known.
  for (std::size_t i = flags.size(); i-- > 0;) {
    bool placed = false;
    for (const bool leftward : {false, true}) {
      for (int row = 0; row < rows && !placed; ++row) {
        placed = fits(i, {row, leftward});
        if (placed) places[i] = {row, leftward};
      }
    }
    if (!placed) return std::nullopt;
  }
  return places;
}

}  // namespace tideover::drawing

/// Room for the words of event marks: each event flies a flag from a thin pole, in rows above the
/// plot, so that no flag covers another and no pole runs through words.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "drawing/figure.hpp"

namespace tideover::drawing {

struct Flag {
  double x_mm = 0.0;      ///< of the pole
  double width_mm = 0.0;  ///< of the words
};

struct FlagPlace {
  int row = 0;            ///< 0 lies next to the plot
  bool leftward = false;  ///< words to the left of the pole, where the right has no room

  [[nodiscard]] bool operator==(const FlagPlace&) const = default;
};

/// Words stand this far from their pole, and at least this far from anything else.
inline constexpr double flag_clearance_mm = 0.6;

/// Ends of the words along x.
struct FlagExtent {
  double left_mm = 0.0;
  double right_mm = 0.0;
};
[[nodiscard]] FlagExtent flag_extent(const Flag& flag, FlagPlace place);

/// Places all flags, which rise in x, in at most `rows` rows between the two edges; nothing if they
/// do not fit. A pole runs from the plot up to and through its own row. Flags of one instant stack
/// in order, the first on top.
[[nodiscard]] std::optional<std::vector<FlagPlace>> place_flags(std::span<const Flag> flags,
                                                                double left_mm, double right_mm,
                                                                int rows);

}  // namespace tideover::drawing

/// Names written at the ends of lines, instead of a key one has to look up.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "drawing/figure.hpp"

namespace tideover::drawing {

/// A stretch of page height that wants its middle at `wish_mm`.
struct Slot {
  double wish_mm = 0.0;
  double height_mm = 0.0;
};

/// Middles, in the order given, as near their wishes as goes without overlap, between `top_mm` and
/// `bottom_mm`. Where the slots need more room than there is, they run past the bottom.
[[nodiscard]] std::vector<double> spread(std::span<const Slot> slots, double top_mm,
                                         double bottom_mm);

struct LineName {
  std::string words;
  Stroke stroke;
  Point end;                 ///< last point of the line
  bool reaches_edge = true;  ///< false where the line ends inside the field
  Fill fill = {};            ///< of a band, whose edges the stroke is
};

/// Room right of the field and in height that `names` take.
[[nodiscard]] Box line_name_room(std::span<const std::string> names);

/// Each name behind a sample of its line; a line that reaches the right edge runs on into its
/// sample.
[[nodiscard]] Group draw_line_names(std::span<const LineName> names, double field_right_mm,
                                    double top_mm, double bottom_mm);

}  // namespace tideover::drawing

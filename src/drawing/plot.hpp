/// A story over time as panels under one another on one time axis, drawn for a printed page: series
/// named at their ends, ranges shaded, events in words. At 180 mm it fits A4 and Letter with their
/// usual margins.
#pragma once

#include <string>
#include <vector>

#include "drawing/event_marks.hpp"
#include "drawing/figure.hpp"
#include "drawing/folded_time.hpp"
#include "drawing/panel.hpp"

namespace tideover::drawing {

/// Time hatched through all panels, such as `mains absent`.
struct Shade {
  double from_s = 0.0;
  double to_s = 0.0;
  std::string words;
};

struct Plot {
  std::string title;              ///< for readers who cannot see it; not drawn
  std::string description;        ///< sentences; what each series does is added to them
  std::string caption;            ///< sentences drawn below; may be empty
  double width_mm = 180.0;        ///< >= 80
  std::vector<TimeStretch> time;  ///< one stretch, or several for a folded axis
  std::string time_title = "Time from the start";
  std::vector<Panel> panels;  ///< one or more
  std::vector<EventMark> events;
  std::vector<Shade> shades;
};

/// The height follows from the contents.
[[nodiscard]] Figure draw(const Plot& plot);

}  // namespace tideover::drawing

/// One panel of a plot over time: a quantity, its series, the ranges it should keep to.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "drawing/axis.hpp"
#include "drawing/figure.hpp"
#include "drawing/folded_time.hpp"

namespace tideover::drawing {

/// Samples belong to the caller and outlive the drawing call. Times are finite and never fall; two
/// samples of one time are a step. A y that is not finite breaks the line.
struct Series {
  std::string name;
  std::span<const double> t_s;
  std::span<const double> y;        ///< in the unit of the panel, as many as times
  std::optional<std::size_t> line;  ///< which series_stroke(); by default its place in the panel
};

/// A shaded range of y; an end at infinity reaches the edge of the panel.
struct Band {
  double from = 0.0;
  double to = 0.0;
  std::string words;
};

struct Panel {
  std::string quantity;  ///< what the axis shows, in words
  std::string unit;      ///< may be empty
  std::vector<Series> series;
  std::vector<Band> bands;
  std::vector<double> also_show;  ///< values the axis must reach, such as 0
  Scale scale = Scale::Linear;    ///< Log leaves out what is not above zero
  double height_mm = 32.0;        ///< of the drawn field; grows where the series' names need it
};

struct PanelAxis {
  Range range;
  std::vector<Tick> ticks;
  Scale scale = Scale::Linear;
};

/// Axis for what the panel shows within the stretches of time.
[[nodiscard]] PanelAxis panel_axis(const Panel& panel, const std::vector<TimeStretch>& time);

/// `quantity, unit`.
[[nodiscard]] std::string panel_title(const Panel& panel);

/// Width the tick labels take left of the axis line.
[[nodiscard]] double tick_room_mm(const PanelAxis& axis);

/// The series' names at the end of their lines: width right of the field, height in all.
struct NameRoom {
  double width_mm = 0.0;
  double height_mm = 0.0;
};
[[nodiscard]] NameRoom name_room(const Panel& panel);

struct DrawnPanel {
  Group bands;  ///< lies under whatever else the field holds
  Group group;
  bool flutters = false;  ///< some line is drawn as its mean on grey ground (flutter.hpp)
};

/// Bands; and rules, axis, series and names. `poles_mm` are x of lines drawn by others,
/// which a band's words keep clear of.
[[nodiscard]] DrawnPanel draw_panel(const Panel& panel, const PanelAxis& axis,
                                    const FoldedTime& time, double top_mm, double bottom_mm,
                                    const std::vector<double>& poles_mm);

/// What the panel shows in sentences, for those who cannot see it: for every series where it starts
/// and ends, its lowest and highest value and when.
[[nodiscard]] std::string panel_in_words(const Panel& panel, const std::vector<TimeStretch>& time);

}  // namespace tideover::drawing

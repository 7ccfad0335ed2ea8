#include "drawing/panel.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include <fmt/format.h>

#include "base/contract.hpp"
#include "drawing/lettering.hpp"
#include "drawing/line_names.hpp"
#include "drawing/time_words.hpp"
#include "drawing/trace.hpp"

namespace tideover::drawing {

namespace {

constexpr double letters_mm = 2.4;
constexpr double band_letters_mm = 2.2;
constexpr double tick_mm = 1.0;
constexpr double mm_per_tick = 6.5;

const Stroke axis_stroke{.width_mm = 0.2, .ink = Ink::Main};
const Stroke rule_stroke{.width_mm = 0.1, .ink = Ink::Rule};
const Stroke band_edge{.width_mm = 0.12, .ink = Ink::Quiet, .dash = Dash::Short};

bool fits_scale(double value, Scale scale) {
  return std::isfinite(value) && (scale == Scale::Linear || value > 0.0);
}

/// Lowest and highest of what is looked at.
struct Extremes {
  std::optional<Range> range;

  void look_at(double value) {
    if (!range) range = Range{value, value};
    range = Range{std::min(range->from, value), std::max(range->to, value)};
  }
};

int ticks_for(const Panel& panel) {
  return std::max(2, static_cast<int>(panel.height_mm / mm_per_tick));
}

Stroke stroke_of(const Panel& panel, std::size_t index) {
  return series_stroke(panel.series[index].line.value_or(index));
}

std::vector<std::string> names_of(const Panel& panel) {
  std::vector<std::string> names;
  for (const Series& series : panel.series) names.push_back(series.name);
  return names;
}

// True where a piece of the line comes into the box, judged by the piece's own box.
bool touches(const std::vector<Point>& line, const Box& box) {
  for (std::size_t i = 0; i < line.size(); ++i) {
    const Point a = line[i];
    const Point b = line[i + 1 < line.size() ? i + 1 : i];
    const Box reach{std::min(a.x_mm, b.x_mm) - 0.1, std::min(a.y_mm, b.y_mm) - 0.1,
                    std::max(a.x_mm, b.x_mm) + 0.1, std::max(a.y_mm, b.y_mm) + 0.1};
    if (reach.overlaps(box)) return true;
  }
  return false;
}

Box band_box(const Band& band, const FoldedTime& time, const FieldScale& field) {
  const double from = std::clamp(band.from, field.range.from, field.range.to);
  const double to = std::clamp(band.to, field.range.from, field.range.to);
  return {time.left_mm(), field.y_mm(std::max(from, to)), time.right_mm(),
          field.y_mm(std::min(from, to))};
}

Group bands(const Panel& panel, const FoldedTime& time, const FieldScale& field) {
  Group group;
  for (const Band& band : panel.bands) {
    for (const PlacedStretch& stretch : time.stretches()) {
      Box box = band_box(band, time, field);
      box.left_mm = stretch.left_mm;
      box.right_mm = stretch.right_mm;
      group.shapes.emplace_back(
          Rectangle{.box = box, .stroke = std::nullopt, .fill = SolidFill{Ink::Tint}});
      for (const double y_mm : {box.top_mm, box.bottom_mm}) {
        group.shapes.emplace_back(
            Line{{stretch.left_mm, y_mm}, {stretch.right_mm, y_mm}, band_edge});
      }
    }
  }
  return group;
}

/// One panel while it is drawn.
class PanelDrawing {
 public:
  PanelDrawing(const Panel& panel, const PanelAxis& axis, const FoldedTime& time, FieldScale field)
      : panel_(panel), axis_(axis), time_(time), field_(field) {
    for (const Series& series : panel.series) {
      Trace whole;
      for (const PlacedStretch& stretch : time.stretches()) {
        Trace part = trace(series.t_s, series.y, stretch, field);
        std::move(part.lines.begin(), part.lines.end(), std::back_inserter(whole.lines));
        std::move(part.grounds.begin(), part.grounds.end(), std::back_inserter(whole.grounds));
      }
      traces_.push_back(std::move(whole));
    }
  }

  void draw_grounds();
  void draw_axis();
  void draw_series();
  void draw_band_words(const std::vector<double>& poles_mm);

  [[nodiscard]] bool flutters() const {
    return std::any_of(traces_.begin(), traces_.end(),
                       [](const Trace& trace) { return !trace.grounds.empty(); });
  }
  [[nodiscard]] Group group() && { return std::move(group_); }

 private:
  [[nodiscard]] bool free_of_ink(Box words, const std::vector<double>& poles_mm) const;
  [[nodiscard]] std::optional<Point> end_of(std::size_t series) const;

  const Panel& panel_;
  const PanelAxis& axis_;
  const FoldedTime& time_;
  FieldScale field_;
  std::vector<Trace> traces_;  // one a series
  std::vector<Box> words_;     // of bands, already placed
  Group group_;
};

void PanelDrawing::draw_grounds() {
  for (const Trace& trace : traces_) {
    for (const std::vector<Point>& ground : trace.grounds) {
      group_.shapes.emplace_back(
          Polygon{.points = ground, .stroke = std::nullopt, .fill = SolidFill{Ink::Ground}});
    }
  }
}

void PanelDrawing::draw_axis() {
  const double left_mm = time_.left_mm();
  for (const Tick& tick : axis_.ticks) {
    const double y_mm = field_.y_mm(tick.at);
    if (tick.label.empty()) {
      group_.shapes.emplace_back(
          Line{{left_mm - tick_mm / 2.0, y_mm}, {left_mm, y_mm}, axis_stroke});
      continue;
    }
    for (const PlacedStretch& stretch : time_.stretches()) {
      group_.shapes.emplace_back(
          Line{{stretch.left_mm, y_mm}, {stretch.right_mm, y_mm}, rule_stroke});
    }
    group_.shapes.emplace_back(Line{{left_mm - tick_mm, y_mm}, {left_mm, y_mm}, axis_stroke});
    group_.shapes.emplace_back(
        Text{.at = {left_mm - tick_mm - 0.8, y_mm + cap_height * letters_mm / 2.0},
             .words = tick.label,
             .size_mm = letters_mm,
             .anchor = Anchor::End});
  }
  group_.shapes.emplace_back(
      Line{{left_mm, field_.top_mm}, {left_mm, field_.bottom_mm}, axis_stroke});
}

std::optional<Point> PanelDrawing::end_of(std::size_t series) const {
  const Trace& trace = traces_[series];
  if (trace.lines.empty()) return std::nullopt;
  return trace.lines.back().back();
}

void PanelDrawing::draw_series() {
  std::vector<LineName> names;
  for (std::size_t i = 0; i < panel_.series.size(); ++i) {
    const Stroke stroke = stroke_of(panel_, i);
    Group group{.title = panel_.series[i].name, .description = "", .shapes = {}};
    for (const std::vector<Point>& line : traces_[i].lines) {
      if (line.size() >= 2) {
        group.shapes.emplace_back(Polyline{line, stroke});
      } else {
        group.shapes.emplace_back(Circle{.centre = line.front(),
                                         .radius_mm = 0.4,
                                         .stroke = std::nullopt,
                                         .fill = SolidFill{stroke.ink}});
      }
    }
    group_.shapes.emplace_back(std::move(group));
    const Point foot{time_.right_mm(), field_.bottom_mm};
    const Point end = end_of(i).value_or(foot);
    const bool reaches = end_of(i) && end.x_mm > time_.right_mm() - 0.2;
    names.push_back({panel_.series[i].name, stroke, end, reaches});
  }
  group_.shapes.emplace_back(
      draw_line_names(names, time_.right_mm(), field_.top_mm - 1.0, field_.bottom_mm + 1.0));
}

bool PanelDrawing::free_of_ink(Box words, const std::vector<double>& poles_mm) const {
  const Box wide{words.left_mm - 0.4, words.top_mm - 0.3, words.right_mm + 0.4,
                 words.bottom_mm + 0.3};
  if (wide.top_mm < field_.top_mm || wide.bottom_mm > field_.bottom_mm) return false;
  for (const double x_mm : poles_mm) {
    if (x_mm > wide.left_mm && x_mm < wide.right_mm) return false;
  }
  const auto covers = [&wide](const Box& box) { return box.overlaps(wide); };
  if (std::any_of(words_.begin(), words_.end(), covers)) return false;
  for (const Trace& trace : traces_) {
    for (const std::vector<Point>& line : trace.lines) {
      if (touches(line, wide)) return false;
    }
    for (const std::vector<Point>& ground : trace.grounds) {
      if (touches(ground, wide)) return false;
    }
  }
  return true;
}

// Inside the band if there is room clear of ink, else close above or below it, else on paper
// ground.
void PanelDrawing::draw_band_words(const std::vector<double>& poles_mm) {
  constexpr double rise_mm = cap_height * band_letters_mm;
  constexpr double fall_mm = descent * band_letters_mm;
  for (const Band& band : panel_.bands) {
    if (band.words.empty()) continue;
    const Box box = band_box(band, time_, field_);
    const double width_mm = text_width_mm(band.words, band_letters_mm);
    const auto at = [&](double left_mm, double baseline_mm) {
      return Box{left_mm, baseline_mm - rise_mm, left_mm + width_mm, baseline_mm + fall_mm};
    };
    std::optional<Box> place;
    for (const double baseline_mm : {box.top_mm + 0.7 + rise_mm, box.bottom_mm - 0.4 - fall_mm,
                                     box.top_mm - 0.6 - fall_mm, box.bottom_mm + 0.8 + rise_mm}) {
      for (const PlacedStretch& stretch : time_.stretches()) {
        const double last_mm = stretch.right_mm - 1.0 - width_mm;
        for (double x_mm = stretch.left_mm + 1.0; !place && x_mm < last_mm; x_mm += 1.5) {
          if (free_of_ink(at(x_mm, baseline_mm), poles_mm)) place = at(x_mm, baseline_mm);
        }
      }
    }
    if (!place) {
      place = at(box.left_mm + 1.0, box.top_mm + 0.7 + rise_mm);
      group_.shapes.emplace_back(
          Rectangle{.box = *place, .stroke = std::nullopt, .fill = SolidFill{Ink::Paper}});
    }
    words_.push_back(*place);
    group_.shapes.emplace_back(Text{.at = {place->left_mm, place->bottom_mm - fall_mm},
                                    .words = band.words,
                                    .size_mm = band_letters_mm,
                                    .ink = Ink::Quiet});
  }
}

// 24.13 and 0.00125, but 12 000 rather than 1.2e+04.
std::string figures(double value) {
  if (value == 0.0) return "0";
  const double digits = std::floor(std::log10(std::abs(value))) - 3.0;
  return number_label(value, std::pow(10.0, std::min(digits, 0.0)));
}

}  // namespace

PanelAxis panel_axis(const Panel& panel, const std::vector<TimeStretch>& time) {
  Extremes extremes;
  const auto look_at = [&](double value) {
    if (fits_scale(value, panel.scale)) extremes.look_at(value);
  };
  for (const Series& series : panel.series) {
    for (const TimeStretch& stretch : time) {
      const Samples samples = clipped(series.t_s, series.y, stretch.from_s, stretch.to_s);
      std::for_each(samples.y.begin(), samples.y.end(), look_at);
    }
  }
  for (const Band& band : panel.bands) {
    look_at(band.from);
    look_at(band.to);
  }
  std::for_each(panel.also_show.begin(), panel.also_show.end(), look_at);
  const Range fallback = panel.scale == Scale::Log ? Range{1.0, 10.0} : Range{0.0, 1.0};
  const int ticks = ticks_for(panel);
  const Range range = nice_range(extremes.range.value_or(fallback), ticks, panel.scale);
  return {range,
          panel.scale == Scale::Log ? log_ticks(range, ticks) : linear_ticks(range, ticks + 2),
          panel.scale};
}

std::string panel_title(const Panel& panel) {
  return panel.unit.empty() ? panel.quantity : panel.quantity + ", " + panel.unit;
}

double tick_room_mm(const PanelAxis& axis) {
  double widest_mm = 0.0;
  for (const Tick& tick : axis.ticks) {
    widest_mm = std::max(widest_mm, text_width_mm(tick.label, letters_mm));
  }
  return widest_mm + tick_mm + 1.0;
}

NameRoom name_room(const Panel& panel) {
  const Box room = line_name_room(names_of(panel));
  return {room.width_mm(), room.height_mm()};
}

DrawnPanel draw_panel(const Panel& panel, const PanelAxis& axis, const FoldedTime& time,
                      double top_mm, double bottom_mm, const std::vector<double>& poles_mm) {
  const FieldScale field{axis.range, axis.scale, top_mm, bottom_mm};
  PanelDrawing drawing(panel, axis, time, field);
  drawing.draw_grounds();
  drawing.draw_axis();
  drawing.draw_series();
  drawing.draw_band_words(poles_mm);
  const bool flutters = drawing.flutters();
  DrawnPanel drawn{bands(panel, time, field), std::move(drawing).group(), flutters};
  drawn.group.title = panel_title(panel);
  return drawn;
}

std::string panel_in_words(const Panel& panel, const std::vector<TimeStretch>& time) {
  std::string text = panel_title(panel) + ":";
  for (const Series& series : panel.series) {
    const Samples samples = clipped(series.t_s, series.y, time.front().from_s, time.back().to_s);
    std::optional<std::size_t> first;
    std::size_t last = 0;
    std::size_t lowest = 0;
    std::size_t highest = 0;
    for (std::size_t i = 0; i < samples.y.size(); ++i) {
      if (!std::isfinite(samples.y[i])) continue;
      if (!first) first = lowest = highest = i;
      last = i;
      if (samples.y[i] < samples.y[lowest]) lowest = i;
      if (samples.y[i] > samples.y[highest]) highest = i;
    }
    if (!first) {
      text += fmt::format(" {} has no values.", series.name);
      continue;
    }
    text += fmt::format(" {} starts at {} and ends at {}; lowest {} at {}, highest {} at {}.",
                        series.name, figures(samples.y[*first]), figures(samples.y[last]),
                        figures(samples.y[lowest]), duration_in_words(samples.t_s[lowest]),
                        figures(samples.y[highest]), duration_in_words(samples.t_s[highest]));
  }
  return text;
}

}  // namespace tideover::drawing

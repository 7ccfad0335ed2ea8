#include "drawing/time_axis.hpp"

#include <algorithm>

#include "drawing/dimension.hpp"
#include "drawing/lettering.hpp"
#include "drawing/time_words.hpp"

namespace tideover::drawing {

namespace {

constexpr double label_size_mm = 2.4;
constexpr double tick_mm = 1.2;

const Stroke axis_stroke{.width_mm = 0.2, .ink = Ink::Main};

void draw_fold(const FoldedTime& time, double y_mm, Group& group) {
  const std::vector<PlacedStretch>& stretches = time.stretches();
  for (std::size_t i = 0; i + 1 < stretches.size(); ++i) {
    for (const double x : {stretches[i].right_mm, stretches[i + 1].left_mm}) {
      group.shapes.emplace_back(
          Line{{x - 0.6, y_mm + 1.4}, {x + 0.6, y_mm - 1.4}, {.width_mm = 0.2, .ink = Ink::Main}});
    }
  }
}

std::string stretch_words(const TimeStretch& stretch) {
  const std::string length = duration_in_words(stretch.to_s - stretch.from_s);
  return stretch.words.empty() ? length : stretch.words + ", " + length;
}

// One measured line under each stretch: what it is and how long it lasts.
double draw_measures(const FoldedTime& time, double y_mm, Group& group) {
  double lowest_mm = y_mm;
  for (const PlacedStretch& stretch : time.stretches()) {
    const double width_mm = stretch.right_mm - stretch.left_mm;
    group.shapes.emplace_back(
        measured_line({stretch.left_mm, y_mm}, {stretch.right_mm, y_mm}, Ink::Quiet));
    double baseline_mm = y_mm + 3.2;
    for (const std::string& line : wrapped(stretch_words(stretch.time), label_size_mm, width_mm)) {
      group.shapes.emplace_back(Text{.at = {(stretch.left_mm + stretch.right_mm) / 2, baseline_mm},
                                     .words = line,
                                     .size_mm = label_size_mm,
                                     .anchor = Anchor::Middle,
                                     .ink = Ink::Quiet});
      lowest_mm = std::max(lowest_mm, baseline_mm + 1.0);
      baseline_mm += 3.0;
    }
  }
  return lowest_mm;
}

}  // namespace

TimeAxis time_axis(const FoldedTime& time, double y_mm, const std::string& title) {
  TimeAxis drawing;
  drawing.group.title = title;
  std::vector<Shape>& shapes = drawing.group.shapes;
  for (const PlacedStretch& stretch : time.stretches()) {
    shapes.emplace_back(Line{{stretch.left_mm, y_mm}, {stretch.right_mm, y_mm}, axis_stroke});
  }
  const double baseline_mm = y_mm + tick_mm + 0.8 + cap_height * label_size_mm;
  for (const PlacedTick& tick : placed_ticks(time, label_size_mm)) {
    shapes.emplace_back(Line{{tick.x_mm, y_mm}, {tick.x_mm, y_mm + tick_mm}, axis_stroke});
    shapes.emplace_back(Text{.at = {tick.label_x_mm, baseline_mm},
                             .words = tick.label,
                             .size_mm = label_size_mm,
                             .anchor = Anchor::Middle});
  }
  draw_fold(time, y_mm, drawing.group);
  double lowest_mm = baseline_mm + 1.2;
  if (time.folded()) lowest_mm = draw_measures(time, lowest_mm + 1.4, drawing.group);
  if (!title.empty()) {
    lowest_mm += 3.0;
    shapes.emplace_back(Text{.at = {time.left_mm(), lowest_mm},
                             .words = title,
                             .size_mm = label_size_mm,
                             .ink = Ink::Quiet});
    lowest_mm += 1.0;
  }
  drawing.height_mm = lowest_mm - y_mm;
  return drawing;
}

}  // namespace tideover::drawing

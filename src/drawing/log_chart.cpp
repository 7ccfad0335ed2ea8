#include "drawing/log_chart.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"
#include "drawing/clip.hpp"
#include "drawing/lettering.hpp"
#include "drawing/line_names.hpp"

namespace tideover::drawing {

namespace {

constexpr double margin_mm = 1.0;
constexpr double letters_mm = 2.4;
constexpr double title_letters_mm = 2.7;
constexpr double title_row_mm = 5.0;
constexpr double mark_row_mm = 3.6;
constexpr double tick_mm = 1.0;
constexpr double foot_mm = 10.0;  // tick labels and the title of x
constexpr int most_ticks = 12;

const Stroke axis_stroke{.width_mm = 0.2, .ink = Ink::Main};
const Stroke rule_stroke{.width_mm = 0.1, .ink = Ink::Rule};
const Stroke mark_stroke{.width_mm = 0.3, .ink = Ink::Main, .dash = Dash::Short};

std::vector<std::string> names_of(const LogChart& chart) {
  std::vector<std::string> names;
  for (const LogBand& band : chart.bands) names.push_back(band.name);
  for (const LogLine& line : chart.lines) names.push_back(line.name);
  return names;
}

double widest_mm(const std::vector<Tick>& ticks) {
  double widest = 0.0;
  for (const Tick& tick : ticks) widest = std::max(widest, text_width_mm(tick.label, letters_mm));
  return widest;
}

/// A chart while it is drawn.
class LogDrawing {
 public:
  explicit LogDrawing(const LogChart& chart)
      : chart_(chart),
        x_ticks_(log_ticks(chart.x, most_ticks)),
        y_ticks_(log_ticks(chart.y, most_ticks)),
        names_room_(line_name_room(names_of(chart))) {
    field_.left_mm = margin_mm + widest_mm(y_ticks_) + tick_mm + 1.0;
    field_.right_mm = chart.width_mm - margin_mm - std::max(6.0, names_room_.width_mm());
    const auto rows = static_cast<double>(chart.marks.size());
    field_.top_mm = margin_mm + title_row_mm + mark_row_mm * rows;
    field_.bottom_mm = field_.top_mm + std::max(chart.field_mm, names_room_.height_mm());
  }

  Figure figure() {
    Figure figure{.width_mm = chart_.width_mm,
                  .height_mm = field_.bottom_mm + foot_mm,
                  .title = chart_.title,
                  .description = chart_.description,
                  .shapes = {}};
    for (Group group : {rules(), bands(), lines(), marks(), axes()}) {
      figure.shapes.emplace_back(std::move(group));
    }
    figure.shapes.emplace_back(
        draw_line_names(names_, field_.right_mm, field_.top_mm - 1.0, field_.bottom_mm + 1.0));
    return figure;
  }

 private:
  [[nodiscard]] static double share(double value, const Range& range) {
    return std::log(value / range.from) / std::log(range.to / range.from);
  }
  [[nodiscard]] double x_mm(double x) const {
    return field_.left_mm + share(x, chart_.x) * field_.width_mm();
  }
  [[nodiscard]] double y_mm(double y) const {
    return field_.bottom_mm - share(y, chart_.y) * field_.height_mm();
  }
  [[nodiscard]] std::vector<Point> placed(const std::vector<LogPoint>& points) const {
    std::vector<Point> all;
    all.reserve(points.size());
    for (const LogPoint& one : points) all.push_back({x_mm(one.x), y_mm(one.y)});
    return all;
  }

  Group rules() const {
    Group group;
    for (const Tick& tick : x_ticks_) {
      if (tick.label.empty()) continue;
      const double at_mm = x_mm(tick.at);
      group.shapes.emplace_back(
          Line{{at_mm, field_.top_mm}, {at_mm, field_.bottom_mm}, rule_stroke});
    }
    for (const Tick& tick : y_ticks_) {
      if (tick.label.empty()) continue;
      const double at_mm = y_mm(tick.at);
      group.shapes.emplace_back(
          Line{{field_.left_mm, at_mm}, {field_.right_mm, at_mm}, rule_stroke});
    }
    return group;
  }

  Group bands() {
    Group all;
    for (const LogBand& band : chart_.bands) {
      Group group{.title = band.name, .description = "", .shapes = {}};
      std::vector<Point> area = placed(band.lower);
      const std::vector<Point> upper = placed(band.upper);
      const Point last{upper.back().x_mm, (area.back().y_mm + upper.back().y_mm) / 2.0};
      area.insert(area.end(), upper.rbegin(), upper.rend());
      area = clipped_area(std::move(area), field_);
      if (!area.empty()) {
        group.shapes.emplace_back(
            Polygon{.points = std::move(area), .stroke = std::nullopt, .fill = band.fill});
      }
      for (const auto* edge : {&band.lower, &band.upper}) add_line(*edge, band.edge, group);
      all.shapes.emplace_back(std::move(group));
      names_.push_back({band.name, band.edge, kept_in(last), reaches(last), band.fill});
    }
    return all;
  }

  Group lines() {
    Group all;
    for (const LogLine& line : chart_.lines) {
      Group group{.title = line.name, .description = "", .shapes = {}};
      add_line(line.points, line.stroke, group);
      all.shapes.emplace_back(std::move(group));
      const Point last = placed(line.points).back();
      names_.push_back({line.name, line.stroke, kept_in(last), reaches(last), {}});
    }
    return all;
  }

  void add_line(const std::vector<LogPoint>& points, const Stroke& stroke, Group& group) const {
    for (auto& piece : clipped_line(placed(points), field_)) {
      group.shapes.emplace_back(Polyline{std::move(piece), stroke});
    }
  }

  [[nodiscard]] bool reaches(const Point& last) const {
    return last.x_mm > field_.right_mm - 0.2 && last.y_mm <= field_.bottom_mm &&
           last.y_mm >= field_.top_mm;
  }
  [[nodiscard]] Point kept_in(const Point& at) const {
    return {std::min(at.x_mm, field_.right_mm),
            std::clamp(at.y_mm, field_.top_mm, field_.bottom_mm)};
  }

  Group marks() const {
    Group group;
    double baseline_mm = margin_mm + title_row_mm + mark_row_mm - 1.2;
    for (const LogMark& mark : chart_.marks) {
      const double at_mm = std::clamp(x_mm(mark.x), field_.left_mm, field_.right_mm);
      group.shapes.emplace_back(
          Line{{at_mm, baseline_mm + 0.6}, {at_mm, field_.bottom_mm}, mark_stroke});
      const double half_mm = text_width_mm(mark.words, letters_mm) / 2.0;
      const double middle_mm =
          std::clamp(at_mm, margin_mm + half_mm, chart_.width_mm - margin_mm - half_mm);
      group.shapes.emplace_back(Text{.at = {middle_mm, baseline_mm},
                                     .words = mark.words,
                                     .size_mm = letters_mm,
                                     .anchor = Anchor::Middle});
      baseline_mm += mark_row_mm;
    }
    return group;
  }

  Group axes() const {
    Group group;
    const Point corner{field_.left_mm, field_.bottom_mm};
    group.shapes.emplace_back(Line{{field_.left_mm, field_.top_mm}, corner, axis_stroke});
    group.shapes.emplace_back(Line{corner, {field_.right_mm, field_.bottom_mm}, axis_stroke});
    const double label_mm = field_.bottom_mm + tick_mm + 0.8 + cap_height * letters_mm;
    for (const Tick& tick : x_ticks_) {
      const double at_mm = x_mm(tick.at);
      const double length_mm = tick.label.empty() ? tick_mm / 2.0 : tick_mm;
      group.shapes.emplace_back(
          Line{{at_mm, field_.bottom_mm}, {at_mm, field_.bottom_mm + length_mm}, axis_stroke});
      add_words({at_mm, label_mm}, tick.label, Anchor::Middle, group);
    }
    for (const Tick& tick : y_ticks_) {
      const double at_mm = y_mm(tick.at);
      const double length_mm = tick.label.empty() ? tick_mm / 2.0 : tick_mm;
      group.shapes.emplace_back(
          Line{{field_.left_mm - length_mm, at_mm}, {field_.left_mm, at_mm}, axis_stroke});
      add_words({field_.left_mm - tick_mm - 0.8, at_mm + cap_height * letters_mm / 2.0}, tick.label,
                Anchor::End, group);
    }
    group.shapes.emplace_back(Text{.at = {margin_mm, margin_mm + title_row_mm - 1.7},
                                   .words = chart_.y_title,
                                   .size_mm = title_letters_mm});
    group.shapes.emplace_back(Text{.at = {field_.left_mm, label_mm + 4.2},
                                   .words = chart_.x_title,
                                   .size_mm = title_letters_mm});
    return group;
  }

  static void add_words(const Point& at, const std::string& words, Anchor anchor, Group& group) {
    if (words.empty()) return;
    group.shapes.emplace_back(
        Text{.at = at, .words = words, .size_mm = letters_mm, .anchor = anchor});
  }

  const LogChart& chart_;
  std::vector<Tick> x_ticks_;
  std::vector<Tick> y_ticks_;
  Box names_room_;
  Box field_;
  std::vector<LineName> names_;
};

}  // namespace

Figure draw(const LogChart& chart) {
  TIDEOVER_EXPECT(chart.width_mm >= 80.0, "a chart has room for its words");
  for (const Range& range : {chart.x, chart.y}) {
    TIDEOVER_EXPECT(range.from > 0.0 && range.from < range.to, "a log scale starts above zero");
  }
  return LogDrawing(chart).figure();
}

}  // namespace tideover::drawing

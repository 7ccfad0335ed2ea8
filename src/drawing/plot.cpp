#include "drawing/plot.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <set>
#include <utility>

#include "base/contract.hpp"
#include "drawing/lettering.hpp"
#include "drawing/time_axis.hpp"

namespace tideover::drawing {

namespace {

constexpr double margin_mm = 1.0;
constexpr double title_row_mm = 5.0;
constexpr double title_letters_mm = 2.7;
constexpr double panel_gap_mm = 2.5;
constexpr double flag_gap_mm = 0.8;  // between the lowest flags and the first title
constexpr double strip_mm = 3.2;
constexpr double strip_row_mm = 4.4;
constexpr double small_letters_mm = 2.3;
constexpr double small_line_mm = 3.1;
constexpr double line_pitch = 1.36;  // of sentences, in letter bodies
constexpr double caption_letters_mm = 2.8;
constexpr double column_gap_mm = 6.0;
constexpr double number_room_mm = 5.0;

const Hatch shade_hatch{
    .spacing_mm = 1.4, .angle_deg = -55.0, .stroke = {.width_mm = 0.1, .ink = Ink::Rule}};

/// Where everything stands, from top to bottom.
struct PlotLayout {
  std::vector<PanelAxis> axes;
  double left_mm = 0.0;
  double right_mm = 0.0;
  double flags_bottom_mm = 0.0;
  double strip_top_mm = 0.0;
  std::vector<std::pair<double, double>> fields_mm;  // top and bottom of each panel
};

double widest_ticks_mm(const std::vector<PanelAxis>& axes) {
  double room_mm = 0.0;
  for (const PanelAxis& axis : axes) room_mm = std::max(room_mm, tick_room_mm(axis));
  return room_mm;
}

double widest_names_mm(const std::vector<Panel>& panels) {
  double room_mm = 6.0;  // at least what the last time label stands out
  for (const Panel& panel : panels) room_mm = std::max(room_mm, name_room(panel).width_mm);
  return room_mm;
}

PlotLayout across(const Plot& plot) {
  PlotLayout layout;
  for (const Panel& panel : plot.panels) layout.axes.push_back(panel_axis(panel, plot.time));
  layout.left_mm = margin_mm + widest_ticks_mm(layout.axes);
  layout.right_mm = plot.width_mm - margin_mm - widest_names_mm(plot.panels);
  return layout;
}

void down(const Plot& plot, const MarkLayout& marks, PlotLayout& layout) {
  layout.flags_bottom_mm = margin_mm + flag_row_mm * marks.rows;
  layout.strip_top_mm = layout.flags_bottom_mm + 0.6;
  double y_mm = layout.flags_bottom_mm;
  if (!plot.shades.empty()) {
    y_mm += strip_row_mm;
  } else if (marks.rows > 0) {
    y_mm += flag_gap_mm;
  }
  for (const Panel& panel : plot.panels) {
    const double top_mm = y_mm + title_row_mm;
    const double height_mm = std::max(panel.height_mm, name_room(panel).height_mm);
    layout.fields_mm.emplace_back(top_mm, top_mm + height_mm);
    y_mm = top_mm + height_mm + panel_gap_mm;
  }
}

// The parts of the page that a time from..to covers, one in each stretch it touches.
std::vector<std::pair<double, double>> covered_mm(const Shade& shade, const FoldedTime& time) {
  std::vector<std::pair<double, double>> parts;
  for (const PlacedStretch& stretch : time.stretches()) {
    const double from_s = std::max(shade.from_s, stretch.time.from_s);
    const double to_s = std::min(shade.to_s, stretch.time.to_s);
    if (from_s < to_s) parts.emplace_back(stretch.x_mm(from_s), stretch.x_mm(to_s));
  }
  return parts;
}

Group shade_fields(const Plot& plot, const FoldedTime& time, const PlotLayout& layout) {
  Group group;
  for (const Shade& shade : plot.shades) {
    for (const auto& [left_mm, right_mm] : covered_mm(shade, time)) {
      for (const auto& [top_mm, bottom_mm] : layout.fields_mm) {
        group.shapes.emplace_back(Rectangle{.box = {left_mm, top_mm, right_mm, bottom_mm},
                                            .stroke = std::nullopt,
                                            .fill = shade_hatch});
      }
    }
  }
  return group;
}

// The bar above the panels that says what the hatching means; words that find no room become a
// note.
Group shade_strip(const Plot& plot, const FoldedTime& time, const PlotLayout& layout,
                  std::vector<std::string>& notes) {
  Group group{.title = "Hatched stretches", .description = "", .shapes = {}};
  std::set<std::string> said;
  std::set<std::string> wanted;
  const double bottom_mm = layout.strip_top_mm + strip_mm;
  for (const Shade& shade : plot.shades) {
    wanted.insert(shade.words);
    for (const auto& [left_mm, right_mm] : covered_mm(shade, time)) {
      const Box bar{left_mm, layout.strip_top_mm, right_mm, bottom_mm};
      group.shapes.emplace_back(Rectangle{.box = bar,
                                          .stroke = Stroke{.width_mm = 0.12, .ink = Ink::Quiet},
                                          .fill = SolidFill{Ink::Tint}});
      if (text_width_mm(shade.words, small_letters_mm) + 2.0 > bar.width_mm()) continue;
      said.insert(shade.words);
      group.shapes.emplace_back(Text{.at = {(left_mm + right_mm) / 2.0, bottom_mm - 0.8},
                                     .words = shade.words,
                                     .size_mm = small_letters_mm,
                                     .anchor = Anchor::Middle});
    }
  }
  for (const std::string& words : wanted) {
    if (said.count(words) == 0) notes.push_back("Hatched: " + words + ".");
  }
  return group;
}

// Where all titles begin: at the margin, or behind the poles that would run through them there.
// Where poles stand too thick for that, at the margin again: the paper behind a title parts them.
double titles_left_mm(const Plot& plot, const std::vector<double>& poles_mm, double right_mm) {
  double widest_mm = 0.0;
  for (const Panel& panel : plot.panels) {
    widest_mm = std::max(widest_mm, text_width_mm(panel_title(panel), title_letters_mm));
  }
  constexpr double clearance_mm = 0.9;
  std::vector<double> poles = poles_mm;
  std::sort(poles.begin(), poles.end());
  double left_mm = margin_mm;
  for (const double pole_mm : poles) {
    if (pole_mm < left_mm - clearance_mm) continue;
    if (pole_mm > left_mm + widest_mm + clearance_mm) break;
    left_mm = pole_mm + clearance_mm;
  }
  return left_mm + widest_mm > 0.5 * right_mm ? margin_mm : left_mm;
}

void draw_title(const Panel& panel, double left_mm, double field_top_mm, Group& group) {
  const std::string title = panel_title(panel);
  const double baseline_mm = field_top_mm - 1.7;
  const Box ground{left_mm, baseline_mm - cap_height * title_letters_mm - 0.5,
                   left_mm + text_width_mm(title, title_letters_mm) + 0.8,
                   baseline_mm + descent * title_letters_mm + 0.2};
  group.shapes.emplace_back(
      Rectangle{.box = ground, .stroke = std::nullopt, .fill = SolidFill{Ink::Paper}});
  group.shapes.emplace_back(
      Text{.at = {left_mm, baseline_mm}, .words = title, .size_mm = title_letters_mm});
}

void draw_panel_foot(const FoldedTime& time, double y_mm, Group& group) {
  for (const PlacedStretch& stretch : time.stretches()) {
    group.shapes.emplace_back(Line{
        {stretch.left_mm, y_mm}, {stretch.right_mm, y_mm}, {.width_mm = 0.12, .ink = Ink::Quiet}});
  }
}

// In as many columns as the widest entry allows, filled one after another. Returns the lowest y.
double draw_list(const std::vector<NumberedMark>& list, double top_mm, double width_mm,
                 Group& group) {
  if (list.empty()) return top_mm;
  double widest_mm = 1.0;
  for (const NumberedMark& mark : list) {
    widest_mm = std::max(widest_mm, text_width_mm(mark.words, small_letters_mm));
  }
  const double pitch_mm = number_room_mm + widest_mm + column_gap_mm;
  const double room_mm = width_mm - 2.0 * margin_mm + column_gap_mm;
  const auto columns = static_cast<std::size_t>(std::max(1.0, std::floor(room_mm / pitch_mm)));
  const std::size_t rows = (list.size() + columns - 1) / columns;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const double y_mm = top_mm + small_line_mm * (static_cast<double>(i % rows) + 1.0);
    const std::size_t column = i / rows;
    const double x_mm = margin_mm + number_room_mm + pitch_mm * static_cast<double>(column);
    group.shapes.emplace_back(Text{.at = {x_mm - 1.2, y_mm},
                                   .words = std::to_string(list[i].number),
                                   .size_mm = small_letters_mm,
                                   .anchor = Anchor::End,
                                   .bold = true});
    group.shapes.emplace_back(
        Text{.at = {x_mm, y_mm}, .words = list[i].words, .size_mm = small_letters_mm});
  }
  return top_mm + small_line_mm * static_cast<double>(rows) + 1.0;
}

double draw_sentences(const std::string& words, double top_mm, double width_mm, double size_mm,
                      Group& group) {
  double y_mm = top_mm;
  for (const std::string& line : wrapped(words, size_mm, width_mm - 2.0 * margin_mm)) {
    y_mm += line_pitch * size_mm;
    group.shapes.emplace_back(Text{.at = {margin_mm, y_mm}, .words = line, .size_mm = size_mm});
  }
  return words.empty() ? top_mm : y_mm + 1.0;
}

std::string in_words(const Plot& plot) {
  std::string text = plot.description;
  for (const Panel& panel : plot.panels) {
    if (!text.empty()) text += ' ';
    text += panel_in_words(panel, plot.time);
  }
  return text;
}

/// The panels, and below them what poles and hatching run over.
struct DrawnPanels {
  Group bands;
  std::vector<Group> groups;
};

// Adds to the notes what the reader must know to read a line.
DrawnPanels draw_panels(const Plot& plot, const FoldedTime& time, const PlotLayout& layout,
                        MarkLayout& marks) {
  DrawnPanels drawn;
  std::vector<double> poles_mm;
  for (const Pole& pole : marks.poles) poles_mm.push_back(pole.x_mm);
  const double title_left_mm = titles_left_mm(plot, poles_mm, layout.right_mm);
  bool flutters = false;
  for (std::size_t i = 0; i < plot.panels.size(); ++i) {
    const auto& [top_mm, bottom_mm] = layout.fields_mm[i];
    DrawnPanel panel =
        draw_panel(plot.panels[i], layout.axes[i], time, top_mm, bottom_mm, poles_mm);
    flutters = flutters || panel.flutters;
    draw_title(plot.panels[i], title_left_mm, top_mm, panel.group);
    if (i + 1 < plot.panels.size()) draw_panel_foot(time, bottom_mm, panel.group);
    drawn.bands.shapes.emplace_back(std::move(panel.bands));
    drawn.groups.push_back(std::move(panel.group));
  }
  if (flutters) {
    marks.notes.emplace_back(
        "Grey behind a line: what it covers where it goes up and down too fast to draw; the line "
        "is "
        "then its mean.");
  }
  return drawn;
}

}  // namespace

Figure draw(const Plot& plot) {
  TIDEOVER_EXPECT(!plot.panels.empty(), "a plot has a panel");
  TIDEOVER_EXPECT(plot.width_mm >= 80.0, "a plot has room for its words");
  PlotLayout layout = across(plot);
  const FoldedTime time(plot.time, layout.left_mm, layout.right_mm);
  MarkLayout marks = lay_out_marks(plot.events, time, margin_mm, plot.width_mm - margin_mm);
  down(plot, marks, layout);

  Figure figure{
      .width_mm = plot.width_mm, .title = plot.title, .description = in_words(plot), .shapes = {}};
  std::vector<Shape>& shapes = figure.shapes;
  DrawnPanels panels = draw_panels(plot, time, layout, marks);
  shapes.emplace_back(std::move(panels.bands));
  if (!plot.shades.empty()) shapes.emplace_back(shade_fields(plot, time, layout));
  shapes.emplace_back(mark_flags(marks, layout.flags_bottom_mm, layout.fields_mm));
  if (!plot.shades.empty()) shapes.emplace_back(shade_strip(plot, time, layout, marks.notes));
  for (Group& group : panels.groups) shapes.emplace_back(std::move(group));
  const double axis_mm = layout.fields_mm.back().second;
  TimeAxis axis = time_axis(time, axis_mm, plot.time_title);
  shapes.emplace_back(std::move(axis.group));
  Group words;
  double y_mm = draw_list(marks.list, axis_mm + axis.height_mm, plot.width_mm, words);
  for (const std::string& note : marks.notes) {
    y_mm = draw_sentences(note, y_mm, plot.width_mm, small_letters_mm, words);
  }
  y_mm = draw_sentences(plot.caption, y_mm, plot.width_mm, caption_letters_mm, words);
  if (!words.shapes.empty()) shapes.emplace_back(std::move(words));
  figure.height_mm = y_mm + margin_mm;
  return figure;
}

}  // namespace tideover::drawing

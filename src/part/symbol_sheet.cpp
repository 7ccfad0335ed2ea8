#include "part/symbol_sheet.hpp"

#include <algorithm>

#include "drawing/moved.hpp"
#include "part/kind.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

using drawing::Anchor;
using drawing::Group;
using drawing::Ink;
using drawing::Point;
using drawing::Text;

namespace {

constexpr int columns = 4;
constexpr double cell_width_mm = 45.0;
constexpr double cell_height_mm = 47.0;
constexpr double heading_mm = 6.0;
constexpr double name_size_mm = 2.0;
constexpr double dot_mm = 0.4;
constexpr double aside_mm = 0.9;
constexpr int groups_shown = 3;

Text name_at(const Symbol& symbol, const Pin& pin, Point at) {
  Text text{.at = at, .words = pin.terminal, .size_mm = name_size_mm, .ink = Ink::Quiet};
  constexpr double drop_mm = 0.35 * name_size_mm;
  const bool is_left = pin.at.x_mm == 0.0;
  if (is_left || pin.at.x_mm == symbol.width_mm) {
    text.at = {at.x_mm + (is_left ? -aside_mm : aside_mm), at.y_mm + drop_mm};
    text.anchor = is_left ? Anchor::End : Anchor::Start;
    return text;
  }
  const bool is_top = pin.at.y_mm == 0.0;
  text.at = {at.x_mm + drop_mm, at.y_mm + (is_top ? -aside_mm : aside_mm)};
  text.anchor = is_top ? Anchor::Start : Anchor::End;
  text.rotation_deg = -90.0;
  return text;
}

std::unique_ptr<Part> shown(const Kind& kind) {
  auto part = kind.make();
  for (const Field& field : kind.description->fields) {
    const auto* const count = std::get_if<CountField>(&field.what);
    if (count != nullptr && field.key == "series") count->count(*part) = groups_shown;
  }
  return part;
}

}  // namespace

Group with_names(const Symbol& symbol, Point at) {
  Group group;
  for (const drawing::Shape& stroke : symbol.strokes) {
    group.shapes.push_back(drawing::moved(stroke, at));
  }
  for (const Pin& pin : symbol.pins) {
    const Point there{at.x_mm + pin.at.x_mm, at.y_mm + pin.at.y_mm};
    group.shapes.emplace_back(drawing::Circle{.centre = there,
                                              .radius_mm = dot_mm,
                                              .stroke = std::nullopt,
                                              .fill = drawing::SolidFill{Ink::Main}});
    group.shapes.emplace_back(name_at(symbol, pin, there));
  }
  return group;
}

drawing::Figure symbol_sheet() {
  const auto count = static_cast<int>(kinds().size());
  const int rows = (count + columns - 1) / columns;
  drawing::Figure sheet{.width_mm = columns * cell_width_mm,
                        .height_mm = rows * cell_height_mm,
                        .title = "Drawing symbols of the kinds of parts",
                        .description = "Each symbol with its kind and the names of its terminals.",
                        .shapes = {}};
  for (int k = 0; k < count; ++k) {
    const Kind& kind = kinds()[static_cast<std::size_t>(k)];
    const int row = k / columns;
    const Point corner{(k % columns) * cell_width_mm, row * cell_height_mm};
    const Symbol symbol = shown(kind)->symbol();
    const double left_mm = corner.x_mm + 0.5 * (cell_width_mm - symbol.width_mm);
    const double room_mm = cell_height_mm - heading_mm;
    const double top_mm = corner.y_mm + heading_mm + 0.5 * (room_mm - symbol.height_mm);
    Group group = with_names(symbol, {left_mm, top_mm});
    group.title = kind.description->name;
    group.shapes.emplace_back(Text{.at = {corner.x_mm + 0.5 * cell_width_mm, corner.y_mm + 4.0},
                                   .words = kind.description->name,
                                   .anchor = Anchor::Middle,
                                   .bold = true});
    sheet.shapes.emplace_back(std::move(group));
  }
  return sheet;
}

}  // namespace tideover::part

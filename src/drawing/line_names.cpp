#include "drawing/line_names.hpp"

#include <algorithm>
#include <cstddef>
#include <numeric>

#include "drawing/lettering.hpp"

namespace tideover::drawing {

namespace {

constexpr double letters_mm = 2.4;
constexpr double line_height_mm = 2.9;
constexpr double slot_gap_mm = 0.4;
constexpr double widest_words_mm = 30.0;
constexpr double lead_in_mm = 3.0;  // from the field to the sample
constexpr double sample_mm = 5.5;   // long enough to show every dash pattern
constexpr double after_sample_mm = 0.8;
constexpr double ground_mm = 2.2;  // height of a band's sample

double slot_height_mm(const std::string& words) {
  const auto lines = wrapped(words, letters_mm, widest_words_mm).size();
  return line_height_mm * static_cast<double>(std::max<std::size_t>(lines, 1)) + slot_gap_mm;
}

// Of a band a piece of its ground between its edges; a thin line leads to it.
void draw_ground_sample(const LineName& name, double from_mm, double y_mm, Group& group) {
  const double left_mm = from_mm + lead_in_mm;
  if (name.reaches_edge) {
    group.shapes.emplace_back(
        Line{name.end, {left_mm, y_mm}, {.width_mm = 0.12, .ink = Ink::Quiet}});
  }
  const Box box{left_mm, y_mm - ground_mm / 2.0, left_mm + sample_mm, y_mm + ground_mm / 2.0};
  group.shapes.emplace_back(Rectangle{.box = box, .stroke = name.stroke, .fill = name.fill});
}

void draw_sample(const LineName& name, double from_mm, double y_mm, Group& group) {
  if (!std::holds_alternative<std::monostate>(name.fill)) {
    draw_ground_sample(name, from_mm, y_mm, group);
    return;
  }
  std::vector<Point> points;
  if (name.reaches_edge) points.push_back(name.end);
  points.push_back({from_mm + lead_in_mm, y_mm});
  points.push_back({from_mm + lead_in_mm + sample_mm, y_mm});
  group.shapes.emplace_back(Polyline{points, name.stroke});
}

}  // namespace

std::vector<double> spread(std::span<const Slot> slots, double top_mm, double bottom_mm) {
  std::vector<std::size_t> order(slots.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&slots](std::size_t a, std::size_t b) {
    return slots[a].wish_mm < slots[b].wish_mm;
  });
  std::vector<double> middles(slots.size());
  // Upwards: no slot below the bottom nor on its lower neighbour. Then downwards from the top.
  double limit_mm = bottom_mm;
  for (auto i = order.rbegin(); i != order.rend(); ++i) {
    const double half_mm = slots[*i].height_mm / 2.0;
    middles[*i] = std::min(slots[*i].wish_mm, limit_mm - half_mm);
    limit_mm = middles[*i] - half_mm;
  }
  limit_mm = top_mm;
  for (const std::size_t i : order) {
    const double half_mm = slots[i].height_mm / 2.0;
    middles[i] = std::max(middles[i], limit_mm + half_mm);
    limit_mm = middles[i] + half_mm;
  }
  return middles;
}

Box line_name_room(std::span<const std::string> names) {
  Box room;
  for (const std::string& name : names) {
    for (const std::string& line : wrapped(name, letters_mm, widest_words_mm)) {
      const double width_mm =
          lead_in_mm + sample_mm + after_sample_mm + text_width_mm(line, letters_mm);
      room.right_mm = std::max(room.right_mm, width_mm);
    }
    room.bottom_mm += slot_height_mm(name);
  }
  return room;
}

Group draw_line_names(std::span<const LineName> names, double field_right_mm, double top_mm,
                      double bottom_mm) {
  Group group;
  std::vector<Slot> slots;
  for (const LineName& name : names) slots.push_back({name.end.y_mm, slot_height_mm(name.words)});
  const std::vector<double> middles = spread(slots, top_mm, bottom_mm);
  const double words_mm = field_right_mm + lead_in_mm + sample_mm + after_sample_mm;
  for (std::size_t i = 0; i < names.size(); ++i) {
    draw_sample(names[i], field_right_mm, middles[i], group);
    const auto lines = wrapped(names[i].words, letters_mm, widest_words_mm);
    const double above_mm = line_height_mm * (static_cast<double>(lines.size()) - 1.0) / 2.0;
    double baseline_mm = middles[i] - above_mm + cap_height * letters_mm / 2.0;
    for (const std::string& line : lines) {
      group.shapes.emplace_back(
          Text{.at = {words_mm, baseline_mm}, .words = line, .size_mm = letters_mm});
      baseline_mm += line_height_mm;
    }
  }
  return group;
}

}  // namespace tideover::drawing

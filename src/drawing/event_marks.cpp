#include "drawing/event_marks.hpp"

#include <algorithm>
#include <cstddef>
#include <map>
#include <optional>

#include <fmt/format.h>

#include "drawing/axis.hpp"
#include "drawing/flag_rows.hpp"
#include "drawing/lettering.hpp"
#include "drawing/time_words.hpp"

namespace tideover::drawing {

namespace {

constexpr double letters_mm = 2.3;
constexpr int rows_of_words = 5;
constexpr int rows_of_numbers = 3;
constexpr std::size_t repeats_at_least = 6;
constexpr std::size_t list_at_most = 40;
constexpr double nearest_short_ticks_mm = 0.4;

const Stroke pole_stroke{.width_mm = 0.12, .ink = Ink::Quiet};

struct PlacedMark {
  EventMark mark;
  double x_mm = 0.0;
};

std::vector<PlacedMark> shown(std::vector<EventMark> marks, const FoldedTime& time) {
  std::stable_sort(marks.begin(), marks.end(),
                   [](const EventMark& a, const EventMark& b) { return a.at_s < b.at_s; });
  std::vector<PlacedMark> placed;
  for (EventMark& mark : marks) {
    if (const auto x = time.x_mm(mark.at_s)) placed.push_back({std::move(mark), *x});
  }
  return placed;
}

// Takes out what happens over and over.
void thin_repeats(std::vector<PlacedMark>& marks, MarkLayout& layout) {
  std::map<std::string, std::vector<const PlacedMark*>> by_words;
  for (const PlacedMark& mark : marks) by_words[mark.mark.words].push_back(&mark);
  for (const auto& [words, same] : by_words) {
    if (same.size() < repeats_at_least) continue;
    const std::string first = duration_in_words(same.front()->mark.at_s);
    const std::string last = duration_in_words(same.back()->mark.at_s);
    layout.notes.push_back(fmt::format("Short ticks: {}, {} times, first at {}, last at {}.", words,
                                       same.size(), first, last));
    for (const PlacedMark* mark : same) layout.short_ticks_mm.push_back(mark->x_mm);
  }
  const auto repeats = [&by_words](const PlacedMark& mark) {
    return by_words[mark.mark.words].size() >= repeats_at_least;
  };
  std::sort(layout.short_ticks_mm.begin(), layout.short_ticks_mm.end());
  const auto too_near = [](double a, double b) { return b - a < nearest_short_ticks_mm; };
  layout.short_ticks_mm.erase(
      std::unique(layout.short_ticks_mm.begin(), layout.short_ticks_mm.end(), too_near),
      layout.short_ticks_mm.end());
  // Decided before any mark moves: by_words points into the marks.
  std::vector<PlacedMark> single;
  std::copy_if(marks.begin(), marks.end(), std::back_inserter(single),
               [&repeats](const PlacedMark& mark) { return !repeats(mark); });
  marks = std::move(single);
}

std::optional<std::vector<Pole>> flown(const std::vector<Pole>& poles, double left_mm,
                                       double right_mm, int rows) {
  std::vector<Flag> flags;
  flags.reserve(poles.size());
  for (const Pole& pole : poles) {
    flags.push_back({pole.x_mm, text_width_mm(pole.words, letters_mm)});
  }
  const auto places = place_flags(flags, left_mm, right_mm, rows);
  if (!places) return std::nullopt;
  std::vector<Pole> placed = poles;
  for (std::size_t i = 0; i < placed.size(); ++i) {
    placed[i].row = (*places)[i].row;
    placed[i].leftward = (*places)[i].leftward;
  }
  return placed;
}

std::string numbers(std::size_t first, std::size_t last) {
  return first == last ? std::to_string(first) : fmt::format("{}–{}", first, last);
}

// Numbers for all marks; those nearer than `together_mm` to the first of a bunch share one pole.
std::vector<Pole> numbered(const std::vector<PlacedMark>& marks, double together_mm) {
  std::vector<Pole> poles;
  std::size_t first = 0;
  while (first < marks.size()) {
    std::size_t last = first;
    while (last + 1 < marks.size() && marks[last + 1].x_mm - marks[first].x_mm <= together_mm) {
      ++last;
    }
    poles.push_back({.x_mm = marks[first].x_mm, .words = numbers(first + 1, last + 1)});
    first = last + 1;
  }
  return poles;
}

std::string instant(double at_s, const FoldedTime& time) {
  std::optional<double> counted_from_s;
  for (const PlacedStretch& stretch : time.stretches()) {
    const bool within = at_s >= stretch.time.from_s && at_s <= stretch.time.to_s;
    if (within) counted_from_s = stretch.time.counted_from_s;
  }
  const double from_s = counted_from_s.value_or(0.0);
  if (from_s == 0.0 || at_s == from_s) return duration_in_words(at_s);
  const std::string sign = at_s > from_s ? "+" : "";
  return duration_in_words(from_s) + ' ' + sign + duration_in_words(at_s - from_s);
}

void list_numbers(const std::vector<PlacedMark>& marks, const FoldedTime& time,
                  MarkLayout& layout) {
  for (std::size_t i = 0; i < std::min(marks.size(), list_at_most); ++i) {
    const EventMark& mark = marks[i].mark;
    const std::string words = instant(mark.at_s, time) + ": " + mark.words;
    layout.list.push_back({static_cast<int>(i) + 1, words});
  }
  if (marks.size() > list_at_most) {
    layout.notes.push_back(
        fmt::format("{} later events are numbered but not listed.", marks.size() - list_at_most));
  }
}

}  // namespace

MarkLayout lay_out_marks(std::vector<EventMark> marks, const FoldedTime& time, double left_mm,
                         double right_mm) {
  MarkLayout layout;
  std::vector<PlacedMark> placed = shown(std::move(marks), time);
  thin_repeats(placed, layout);
  std::vector<Pole> worded;
  worded.reserve(placed.size());
  for (const PlacedMark& mark : placed) {
    worded.push_back({.x_mm = mark.x_mm, .words = mark.mark.words});
  }
  auto poles = flown(worded, left_mm, right_mm, rows_of_words);
  if (!poles) {
    list_numbers(placed, time, layout);
    // Wide bunches always fit in the end: one pole for everything is one flag.
    for (double together_mm = 0.3; !poles && together_mm < 2 * (right_mm - left_mm);
         together_mm *= 1.25) {
      poles = flown(numbered(placed, together_mm), left_mm, right_mm, rows_of_numbers);
    }
  }
  if (poles) layout.poles = std::move(*poles);
  for (const Pole& pole : layout.poles) layout.rows = std::max(layout.rows, pole.row + 1);
  return layout;
}

Group mark_flags(const MarkLayout& layout, double flags_bottom_mm,
                 const std::vector<std::pair<double, double>>& spans_mm) {
  Group group{.title = "Events", .description = "", .shapes = {}};
  for (const Pole& pole : layout.poles) {
    const double top_mm = flags_bottom_mm - flag_row_mm * (pole.row + 1);
    const double first_bottom_mm = spans_mm.empty() ? flags_bottom_mm : spans_mm.front().second;
    group.shapes.emplace_back(
        Line{{pole.x_mm, top_mm + 0.4}, {pole.x_mm, first_bottom_mm}, pole_stroke});
    for (std::size_t i = 1; i < spans_mm.size(); ++i) {
      group.shapes.emplace_back(
          Line{{pole.x_mm, spans_mm[i].first}, {pole.x_mm, spans_mm[i].second}, pole_stroke});
    }
    const double side = pole.leftward ? -1.0 : 1.0;
    group.shapes.emplace_back(Text{.at = {pole.x_mm + side * flag_clearance_mm, top_mm + 2.4},
                                   .words = pole.words,
                                   .size_mm = letters_mm,
                                   .anchor = pole.leftward ? Anchor::End : Anchor::Start});
  }
  const double ticks_top_mm = spans_mm.empty() ? flags_bottom_mm : spans_mm.front().first;
  for (const double x_mm : layout.short_ticks_mm) {
    group.shapes.emplace_back(Line{{x_mm, ticks_top_mm}, {x_mm, ticks_top_mm + 1.0}, pole_stroke});
  }
  return group;
}

}  // namespace tideover::drawing

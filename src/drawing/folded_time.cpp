#include "drawing/folded_time.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"
#include "drawing/axis.hpp"
#include "drawing/lettering.hpp"
#include "drawing/point.hpp"
#include "drawing/time_words.hpp"

namespace tideover::drawing {

namespace {

constexpr double fold_gap_mm = 3.0;
constexpr double label_gap_mm = 2.0;
constexpr double overhang_mm = 6.0;  // how far an outermost label may stand out

std::string tick_label(const TimeStretch& stretch, const Tick& tick) {
  if (!stretch.counted_from_s || tick.at < 0.0) return tick.label;
  return tick.at > 0.0 ? "+" + tick.label : duration_in_words(*stretch.counted_from_s);
}

std::vector<PlacedTick> ticks_of(const PlacedStretch& stretch, int at_most, Box room,
                                 double size_mm) {
  const double zero_s = stretch.time.counted_from_s.value_or(0.0);
  const Range range{stretch.time.from_s - zero_s, stretch.time.to_s - zero_s};
  std::vector<PlacedTick> placed;
  for (const Tick& tick : time_ticks(range, at_most)) {
    const std::string label = tick_label(stretch.time, tick);
    const double half_mm = text_width_mm(label, size_mm) / 2.0;
    const double x_mm = stretch.x_mm(tick.at + zero_s);
    const double least = room.left_mm + half_mm;
    const double most = std::max(least, room.right_mm - half_mm);
    placed.push_back({x_mm, label, std::clamp(x_mm, least, most)});
  }
  return placed;
}

bool labels_clear(const std::vector<PlacedTick>& ticks, Box room, double size_mm) {
  double free_from_mm = room.left_mm - label_gap_mm;
  for (const PlacedTick& tick : ticks) {
    const double half_mm = text_width_mm(tick.label, size_mm) / 2.0;
    if (tick.label_x_mm - half_mm < free_from_mm + label_gap_mm - 1e-9) return false;
    if (tick.label_x_mm + half_mm > room.right_mm + 1e-9) return false;
    // A label pushed away from its tick must not read as the next one's.
    if (std::abs(tick.label_x_mm - tick.x_mm) > half_mm) return false;
    free_from_mm = tick.label_x_mm + half_mm;
  }
  return true;
}

}  // namespace

FoldedTime::FoldedTime(const std::vector<TimeStretch>& stretches, double left_mm, double right_mm) {
  TIDEOVER_EXPECT(!stretches.empty(), "an axis has a stretch of time");
  double shares = 0.0;
  for (const TimeStretch& stretch : stretches) {
    TIDEOVER_EXPECT(stretch.share > 0.0, "a stretch has a share of the width");
    TIDEOVER_EXPECT(stretch.from_s < stretch.to_s, "a stretch of time runs forward");
    shares += stretch.share;
  }
  const double gaps_mm = fold_gap_mm * static_cast<double>(stretches.size() - 1);
  const double room_mm = right_mm - left_mm - gaps_mm;
  TIDEOVER_EXPECT(room_mm > 0.0, "an axis has a width");
  double x_mm = left_mm;
  for (const TimeStretch& stretch : stretches) {
    const bool rises = stretches_.empty() || stretches_.back().time.to_s <= stretch.from_s;
    TIDEOVER_EXPECT(rises, "stretches rise and do not overlap");
    const double width_mm = room_mm * stretch.share / shares;
    stretches_.push_back({stretch, x_mm, x_mm + width_mm});
    x_mm += width_mm + fold_gap_mm;
  }
}

std::optional<double> FoldedTime::x_mm(double t_s) const {
  for (auto stretch = stretches_.rbegin(); stretch != stretches_.rend(); ++stretch) {
    if (t_s >= stretch->time.from_s && t_s <= stretch->time.to_s) return stretch->x_mm(t_s);
  }
  return std::nullopt;
}

std::vector<PlacedTick> placed_ticks(const FoldedTime& time, double size_mm) {
  std::vector<PlacedTick> all;
  const std::vector<PlacedStretch>& stretches = time.stretches();
  for (std::size_t i = 0; i < stretches.size(); ++i) {
    // Between two stretches the labels keep their gap; outwards they may stand out.
    const double inner_mm = (fold_gap_mm - label_gap_mm) / 2.0;
    const bool last = i + 1 == stretches.size();
    const Box room{.left_mm = stretches[i].left_mm - (i == 0 ? overhang_mm : inner_mm),
                   .top_mm = 0.0,
                   .right_mm = stretches[i].right_mm + (last ? overhang_mm : inner_mm),
                   .bottom_mm = 0.0};
    const double width_mm = stretches[i].right_mm - stretches[i].left_mm;
    for (int at_most = 2 + static_cast<int>(width_mm / 10.0); at_most >= 1; --at_most) {
      const std::vector<PlacedTick> ticks = ticks_of(stretches[i], at_most, room, size_mm);
      if (!labels_clear(ticks, room, size_mm)) continue;
      all.insert(all.end(), ticks.begin(), ticks.end());
      break;
    }
  }
  return all;
}

}  // namespace tideover::drawing

#include "drawing/clip.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

namespace tideover::drawing {

namespace {

Point between(const Point& a, const Point& b, double share) {
  return {a.x_mm + share * (b.x_mm - a.x_mm), a.y_mm + share * (b.y_mm - a.y_mm)};
}

/// How far a point lies inside each of the four edges; negative outside.
std::array<double, 4> depths_mm(const Point& at, const Box& box) {
  return {at.x_mm - box.left_mm, box.right_mm - at.x_mm, at.y_mm - box.top_mm,
          box.bottom_mm - at.y_mm};
}

/// The shares of the way from a to b between which it runs inside.
std::optional<std::pair<double, double>> inside(const Point& a, const Point& b, const Box& box) {
  const auto from_mm = depths_mm(a, box);
  const auto to_mm = depths_mm(b, box);
  double enters = 0.0;
  double leaves = 1.0;
  for (std::size_t edge = 0; edge < from_mm.size(); ++edge) {
    if (from_mm[edge] < 0.0 && to_mm[edge] < 0.0) return std::nullopt;
    if (from_mm[edge] >= 0.0 && to_mm[edge] >= 0.0) continue;
    const double share = from_mm[edge] / (from_mm[edge] - to_mm[edge]);
    if (from_mm[edge] < 0.0) {
      enters = std::max(enters, share);
    } else {
      leaves = std::min(leaves, share);
    }
  }
  if (enters > leaves) return std::nullopt;
  return std::pair(enters, leaves);
}

}  // namespace

std::vector<std::vector<Point>> clipped_line(const std::vector<Point>& line, const Box& box) {
  std::vector<std::vector<Point>> pieces;
  bool is_going_on = false;
  for (std::size_t k = 1; k < line.size(); ++k) {
    const auto run = inside(line[k - 1], line[k], box);
    if (!run) {
      is_going_on = false;
      continue;
    }
    if (!is_going_on || run->first > 0.0) {
      pieces.push_back({between(line[k - 1], line[k], run->first)});
    }
    pieces.back().push_back(between(line[k - 1], line[k], run->second));
    is_going_on = run->second >= 1.0;
  }
  return pieces;
}

std::vector<Point> clipped_area(std::vector<Point> area, const Box& box) {
  for (std::size_t edge = 0; edge < 4; ++edge) {
    std::vector<Point> kept;
    for (std::size_t k = 0; k < area.size(); ++k) {
      const Point& here = area[k];
      const Point& next = area[(k + 1) % area.size()];
      const double here_mm = depths_mm(here, box)[edge];
      const double next_mm = depths_mm(next, box)[edge];
      if (here_mm >= 0.0) kept.push_back(here);
      if ((here_mm >= 0.0) != (next_mm >= 0.0)) {
        kept.push_back(between(here, next, here_mm / (here_mm - next_mm)));
      }
    }
    area = std::move(kept);
  }
  return area.size() < 3 ? std::vector<Point>{} : area;
}

}  // namespace tideover::drawing

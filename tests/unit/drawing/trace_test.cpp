#include "drawing/trace.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "drawing/flutter.hpp"

using namespace tideover::drawing;

namespace {

// Height of a line of points at x; of several points at one x, the nearest to y.
double distance_from(const std::vector<Point>& line, Point point) {
  double nearest = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < line.size(); ++i) {
    const Point a = line[i];
    const Point b = line[std::min(i + 1, line.size() - 1)];
    if (point.x_mm < a.x_mm || point.x_mm > b.x_mm) continue;
    const double lowest = std::min(a.y_mm, b.y_mm);
    const double highest = std::max(a.y_mm, b.y_mm);
    const double at = b.x_mm > a.x_mm
                          ? a.y_mm + (b.y_mm - a.y_mm) * (point.x_mm - a.x_mm) / (b.x_mm - a.x_mm)
                          : std::clamp(point.y_mm, lowest, highest);
    nearest = std::min(nearest, std::abs(at - point.y_mm));
  }
  return nearest;
}

}  // namespace

TEST_CASE("given a line that crosses the edge of a stretch, it is cut on the line") {
  const std::vector<double> t_s{0.0, 10.0, 20.0};
  const std::vector<double> y{0.0, 100.0, 0.0};
  const Samples part = clipped(t_s, y, 5.0, 12.0);
  CHECK(part.t_s == std::vector<double>{5.0, 10.0, 12.0});
  CHECK(part.y == std::vector<double>{50.0, 100.0, 80.0});
  SUBCASE("a stretch between two samples holds a piece of the line") {
    CHECK(clipped(t_s, y, 2.0, 3.0).y == std::vector<double>{20.0, 30.0});
  }
  SUBCASE("a stretch outside the samples holds nothing") {
    CHECK(clipped(t_s, y, 21.0, 30.0).t_s.empty());
    CHECK(clipped(t_s, y, -5.0, -1.0).t_s.empty());
    CHECK(clipped({}, {}, 0.0, 1.0).t_s.empty());
  }
  SUBCASE("a stretch that ends on a step keeps both of its sides") {
    const std::vector<double> stepped_s{0.0, 10.0, 10.0, 20.0};
    const std::vector<double> step{1.0, 1.0, 5.0, 5.0};
    CHECK(clipped(stepped_s, step, 0.0, 10.0).y == std::vector<double>{1.0, 1.0, 5.0});
  }
}

TEST_CASE("given any line, straightening keeps its ends and every point within the tolerance") {
  CHECK(rc::check([](const std::vector<unsigned>& shape) {
    std::vector<Point> points;
    double x = 0.0;
    for (const unsigned number : shape) {
      x += 0.1 * (number % 3U);
      points.push_back({x, 0.01 * (number / 3U % 40U)});
    }
    const std::vector<Point> kept = straightened(points, 0.05);
    if (points.size() < 2) return;
    RC_ASSERT(kept.front() == points.front());
    RC_ASSERT(kept.back() == points.back());
    for (const Point point : points) RC_ASSERT(distance_from(kept, point) <= 0.05 + 1e-9);
  }));
}

TEST_CASE("given a straight line of many points, its two ends are left") {
  std::vector<Point> points;
  for (int i = 0; i <= 1000; ++i) points.push_back({0.1 * i, 20.0 - 0.01 * i});
  CHECK(straightened(points, 0.01).size() == 2);
}

TEST_CASE("given a load that bursts every minute for hours, the line is its mean on grey ground") {
  // 3 s at 2 A and 57 s at 1 A: 1.05 A on average.
  std::vector<double> t_s;
  std::vector<double> current_a;
  for (int minute = 0; minute < 600; ++minute) {
    for (const double at : {0.0, 3.0}) {
      t_s.insert(t_s.end(), {60.0 * minute + at, 60.0 * minute + at});
      const double before = at == 0.0 ? 1.0 : 2.0;
      current_a.insert(current_a.end(), {before, 3.0 - before});
    }
  }
  const PlacedStretch stretch{{.from_s = 0.0, .to_s = 36000.0}, 0.0, 100.0};
  const FieldScale field{{0.0, 2.0}, Scale::Linear, 0.0, 20.0};
  const Trace drawn = trace(t_s, current_a, stretch, field);
  REQUIRE(drawn.grounds.size() == 1);
  const auto [high, low] =
      std::minmax_element(drawn.grounds[0].begin(), drawn.grounds[0].end(),
                          [](const Point& a, const Point& b) { return a.y_mm < b.y_mm; });
  CHECK(high->y_mm == doctest::Approx(0.0));
  CHECK(low->y_mm == doctest::Approx(10.0));
  for (const std::vector<Point>& line : drawn.lines) {
    for (const Point point : line) {
      if (point.x_mm < 1.0 || point.x_mm > 99.0) continue;
      // A 0.6 mm cell is 3.6 min long and holds 3 or 4 bursts: 1 + (3 or 4) * 3 s / 216 s.
      CHECK(point.y_mm <= 20.0 - 10.0 * (1.0 + 3.0 * 3.0 / 216.0) + 0.06);
      CHECK(point.y_mm >= 20.0 - 10.0 * (1.0 + 4.0 * 3.0 / 216.0) - 0.06);
    }
  }
}

TEST_CASE("given a long silence before the bursts, the line stays down until they begin") {
  std::vector<double> t_s{0.0, 3000.0};
  std::vector<double> current_a{0.0, 0.0};
  for (int second = 18000; second < 36000; second += 20) {
    t_s.push_back(second);
    current_a.push_back(second == 18000 ? 0.0 : 1.0 + (second / 20) % 2);
  }
  const PlacedStretch stretch{{.from_s = 0.0, .to_s = 36000.0}, 0.0, 100.0};
  const FieldScale field{{0.0, 2.0}, Scale::Linear, 0.0, 20.0};
  const Trace drawn = trace(t_s, current_a, stretch, field);
  double nearest_mm = std::numeric_limits<double>::infinity();
  for (const std::vector<Point>& line : drawn.lines) {
    nearest_mm = std::min(nearest_mm, distance_from(line, {45.0, 20.0}));
  }
  CHECK(nearest_mm < 0.05);
}

TEST_CASE("given a slow line, a single step or a gap, nothing flutters") {
  std::vector<double> x;
  std::vector<double> y;
  for (int i = 0; i < 1000; ++i) {
    x.push_back(0.1 * i);
    y.push_back(i < 500 ? 10.0 + 5.0 * std::sin(0.02 * i) : 2.0);
  }
  y[700] = std::numeric_limits<double>::quiet_NaN();
  const std::vector<Section> parts = sections(x, y);
  REQUIRE(parts.size() == 1);
  CHECK_FALSE(parts[0].flutters);
  CHECK(parts[0].end == 1000);
}

TEST_CASE("given a fluttering line that leaps, the leap is drawn and not averaged away") {
  std::vector<double> x;
  std::vector<double> y;
  for (int i = 0; i < 2000; ++i) {
    x.push_back(0.02 * i);
    y.push_back((i < 1000 ? 5.0 : 25.0) + 0.2 * (i % 4 < 2 ? 1 : -1));
  }
  std::vector<Section> parts = sections(x, y);
  REQUIRE(parts.size() == 3);
  CHECK(parts[0].flutters);
  CHECK_FALSE(parts[1].flutters);
  CHECK(parts[2].flutters);
  CHECK(parts[1].first <= 1000);
  CHECK(parts[1].end >= 1001);
}

TEST_CASE("given a sag between two fluttering levels, the line itself goes down to its lowest") {
  std::vector<double> t_s;
  std::vector<double> rail_v;
  for (int i = 0; i < 4000; ++i) {
    t_s.push_back(0.01 * i);
    const double burst_v = i % 4 < 2 ? 0.0 : -0.4;
    const bool sags = i >= 2000 && i < 2008;
    rail_v.push_back(sags ? 24.0 - 1.1 * (i - 1999) : (i < 2000 ? 24.0 : 20.0) + burst_v);
  }
  const PlacedStretch stretch{{.from_s = 0.0, .to_s = 40.0}, 0.0, 40.0};
  const Trace drawn = trace(t_s, rail_v, stretch, {{0.0, 30.0}, Scale::Linear, 0.0, 30.0});
  CHECK(drawn.grounds.size() >= 2);
  REQUIRE(drawn.lines.size() == 1);
  double lowest_mm = 0.0;
  for (const Point point : drawn.lines[0]) lowest_mm = std::max(lowest_mm, point.y_mm);
  // 24 V - 8 * 1.1 V = 15.2 V, at 1 mm a volt.
  CHECK(lowest_mm == doctest::Approx(30.0 - 15.2).epsilon(0.003));
}

TEST_CASE("given a log scale, what is not above zero leaves a gap") {
  const std::vector<double> t_s{0.0, 1.0, 2.0, 3.0, 4.0};
  const std::vector<double> y{1.0, 10.0, 0.0, 10.0, 100.0};
  const PlacedStretch stretch{{.from_s = 0.0, .to_s = 4.0}, 0.0, 40.0};
  const Trace drawn = trace(t_s, y, stretch, {{1.0, 100.0}, Scale::Log, 0.0, 20.0});
  REQUIRE(drawn.lines.size() == 2);
  CHECK(drawn.lines[0].back().y_mm == doctest::Approx(10.0));
  CHECK(drawn.lines[1].back().y_mm == doctest::Approx(0.0));
}

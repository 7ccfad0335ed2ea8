#include "drawing/decimate.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>
#include <vector>

#include <doctest/doctest.h>
#include <rapidcheck.h>

using namespace tideover::drawing;

namespace {

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

std::size_t kept(const std::vector<Run>& runs) {
  std::size_t count = 0;
  for (const Run& run : runs) count += run.size();
  return count;
}

}  // namespace

TEST_CASE(
    "given 100 000 samples on 120 mm, at most two a 0.1 mm column stay and no spike is lost") {
  std::mt19937 random(20240229);
  std::normal_distribution<double> noise;
  std::vector<double> x;
  std::vector<double> y;
  for (int i = 0; i < 100000; ++i) {
    x.push_back(120.0 * i / 100000.0);
    y.push_back(noise(random));
  }
  y[31415] = 40.0;
  y[92653] = -40.0;
  const std::vector<Run> runs = decimated(x, y, 0.1);
  REQUIRE(runs.size() == 1);
  CHECK(kept(runs) <= 2 * 1200 + 2);
  CHECK(std::count(runs[0].begin(), runs[0].end(), 31415U) == 1);
  CHECK(std::count(runs[0].begin(), runs[0].end(), 92653U) == 1);
  CHECK(runs[0].front() == 0);
  CHECK(runs[0].back() == 99999);
}

TEST_CASE(
    "given a level held for long and then a dip, no slope is drawn from the one to the other") {
  const std::vector<double> x{0.0, 5.0, 20.0, 20.01, 20.02, 30.0};
  const std::vector<double> y{21.0, 21.0, 21.0, 2.0, 24.0, 24.0};
  const std::vector<Run> runs = decimated(x, y, 1.0);
  REQUIRE(runs.size() == 1);
  CHECK(runs[0] == Run{0, 1, 2, 3, 4, 5});
}

TEST_CASE("given any line, each column keeps its lowest and highest value exactly") {
  CHECK(rc::check([](const std::vector<int>& heights, const std::vector<unsigned>& steps) {
    std::vector<double> x;
    std::vector<double> y;
    double at = 0.0;
    for (std::size_t i = 0; i < std::min(heights.size(), steps.size()); ++i) {
      at += 0.07 * (steps[i] % 5U);
      x.push_back(at);
      y.push_back(heights[i]);
    }
    const std::vector<Run> runs = decimated(x, y, 1.0);
    RC_ASSERT(runs.size() == (x.empty() ? 0U : 1U));
    if (runs.empty()) return;
    RC_ASSERT(std::is_sorted(runs[0].begin(), runs[0].end()));
    // For every sample its column keeps one as low and one as high.
    for (std::size_t i = 0; i < x.size(); ++i) {
      const auto kept_where = [&](auto holds) {
        return std::any_of(runs[0].begin(), runs[0].end(), [&](std::size_t k) {
          return std::floor(x[k]) == std::floor(x[i]) && holds(y[k]);
        });
      };
      RC_ASSERT(kept_where([&](double value) { return value <= y[i]; }));
      RC_ASSERT(kept_where([&](double value) { return value >= y[i]; }));
    }
  }));
}

TEST_CASE("given a gap, the line breaks, a gap no wider than a column does not show") {
  const std::vector<double> x{0.0, 1.0, 2.0, 3.0, 4.0, 4.01, 4.02, 5.0};
  const std::vector<double> y{1.0, 2.0, nothing, 3.0, 4.0, nothing, 4.5, 5.0};
  const std::vector<Run> runs = decimated(x, y, 0.1);
  REQUIRE(runs.size() == 2);
  CHECK(runs[0] == Run{0, 1});
  CHECK(runs[1] == Run{3, 4, 6, 7});
}

TEST_CASE("given every other sample missing, columns still bound what is kept") {
  std::vector<double> x;
  std::vector<double> y;
  for (int i = 0; i < 50000; ++i) {
    x.push_back(i * 1e-3);
    y.push_back(i % 2 == 0 ? std::sin(i) : nothing);
  }
  CHECK(kept(decimated(x, y, 0.1)) <= 2 * 500 + 2);
}

TEST_CASE("given nothing, or nothing finite, there is no line") {
  CHECK(decimated({}, {}, 0.1).empty());
  const std::vector<double> x{0.0, 1.0};
  const std::vector<double> y{nothing, std::numeric_limits<double>::infinity()};
  CHECK(decimated(x, y, 0.1).empty());
}

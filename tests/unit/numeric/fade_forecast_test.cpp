#include "numeric/fade_forecast.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include <doctest/doctest.h>

#include "base/contract.hpp"

namespace {

using namespace tideover;
using numeric::FadeForecast;

std::vector<double> counted(std::size_t first, std::size_t count) {
  std::vector<double> x(count);
  for (std::size_t k = 0; k < count; ++k) x[k] = static_cast<double>(first + k);
  return x;
}

/// Even numbers from -1 to 1.
double scatter(std::mt19937_64& random) {
  return static_cast<double>(random() >> 11) * 0x1p-52 - 1.0;
}

template <class Law>
std::vector<double> record(const std::vector<double>& x, const Law& law) {
  std::vector<double> y;
  y.reserve(x.size());
  for (const double at : x) y.push_back(law(at));
  return y;
}

}  // namespace

TEST_CASE("fade: what loses the same each cycle goes on so, with hardly a band") {
  const auto law = [](double n) { return 2.0 - 0.004 * n; };
  const auto x = counted(1, 80);
  const FadeForecast forecast = numeric::forecast_fade(x, record(x, law), counted(81, 40));
  for (const auto& point : forecast.points) {
    CHECK(point.middle == doctest::Approx(law(point.at)).epsilon(1e-4));
    CHECK(point.high - point.low < 0.01 * point.middle);
  }
  CHECK(forecast.weights[0] + forecast.weights[1] > 0.99);
  CHECK(forecast.tried_until == doctest::Approx(119.5));
}

TEST_CASE("fade: what loses the same share each cycle goes on so") {
  const auto law = [](double n) { return 2.0 * std::exp(-0.004 * n); };
  const auto x = counted(1, 80);
  const FadeForecast forecast = numeric::forecast_fade(x, record(x, law), counted(81, 40));
  for (const auto& point : forecast.points) {
    CHECK(point.middle == doctest::Approx(law(point.at)).epsilon(1e-4));
  }
  CHECK(forecast.weights[2] + forecast.weights[3] > 0.99);
}

TEST_CASE("fade: a few readings gone wild do not bend the middle") {
  const auto law = [](double n) { return 2.0 - 0.004 * n; };
  const auto x = counted(1, 90);
  auto y = record(x, law);
  for (const std::size_t wild : {20U, 41U, 62U}) y[wild] = 0.7;
  const FadeForecast forecast = numeric::forecast_fade(x, y, {130.0});
  CHECK(forecast.points.front().middle == doctest::Approx(law(130.0)).epsilon(0.01));
}

TEST_CASE("fade: of walks by chance about a line, nine of ten points lie in the band") {
  // Steps that add up are what the band supposes; it knows neither their size nor the slope.
  std::mt19937_64 random(4);
  int inside = 0;
  int all = 0;
  for (int walk = 0; walk < 60; ++walk) {
    const auto x = counted(1, 135);
    double away = 0.0;
    const auto y = record(x, [&](double n) {
      away += 0.004 * scatter(random);
      return 2.0 - 0.004 * n + away;
    });
    const FadeForecast forecast = numeric::forecast_fade(
        {x.begin(), x.begin() + 90}, {y.begin(), y.begin() + 90}, counted(91, 45));
    for (std::size_t k = 0; k < forecast.points.size(); ++k, ++all) {
      const auto& point = forecast.points[k];
      if (y[90 + k] >= point.low && y[90 + k] <= point.high) ++inside;
    }
  }
  const double share = static_cast<double>(inside) / all;
  CAPTURE(share);
  CHECK(share > 0.88);
  CHECK(share < 0.99);
}

TEST_CASE("fade: the unit of time and of the value change nothing but the unit") {
  std::mt19937_64 random(5);
  const auto x = counted(1, 60);
  const auto y = record(x, [&](double n) { return 2.0 - 0.005 * n + 0.01 * scatter(random); });
  const FadeForecast one = numeric::forecast_fade(x, y, {75.0});
  auto days = x;
  for (double& at : days) at *= 10.0;
  auto coulombs = y;
  for (double& value : coulombs) value *= 3600.0;
  const FadeForecast other = numeric::forecast_fade(days, coulombs, {750.0});
  CHECK(other.points[0].low == doctest::Approx(3600.0 * one.points[0].low));
  CHECK(other.points[0].middle == doctest::Approx(3600.0 * one.points[0].middle));
  CHECK(other.points[0].high == doctest::Approx(3600.0 * one.points[0].high));
}

TEST_CASE("fade: a long record is thinned to medians and says the same") {
  const auto law = [](double n) { return 2.0 - 0.0004 * n; };
  const auto x = counted(1, 2001);
  const FadeForecast forecast = numeric::forecast_fade(x, record(x, law), {3000.0});
  CHECK(forecast.points.front().middle == doctest::Approx(law(3000.0)).epsilon(1e-3));
}

TEST_CASE("fade: the band is ordered and widens, and never goes below nothing") {
  std::mt19937_64 random(6);
  const auto x = counted(1, 48);
  const auto y = record(x, [&](double n) { return 1.0 - 0.015 * n + 0.05 * scatter(random); });
  const FadeForecast forecast = numeric::forecast_fade(x, y, counted(49, 200));
  double width = 0.0;
  for (const auto& point : forecast.points) {
    CHECK(point.low >= 0.0);
    CHECK(point.low <= point.middle);
    CHECK(point.middle <= point.high);
    CHECK(point.middle > 0.0);
    CHECK(point.high - point.middle >= width);
    width = point.high - point.middle;
  }
}

TEST_CASE("fade: too short a record is our fault") {
  const auto x = counted(1, numeric::least_fade_points - 1);
  CHECK_THROWS_AS(static_cast<void>(numeric::forecast_fade(x, x, {100.0})), base::ContractFault);
}

#include "part/fuse/fuse_curve.hpp"

#include <algorithm>
#include <cmath>

#include "part/fuse/opening_line.hpp"

namespace tideover::part {

namespace {

/// Cooling is never so fast that an opening takes more than this many of its time constants:
/// otherwise the last of the way to h = 1 would be an asymptote.
constexpr double most_time_constants = 1.5;
/// Heat at which the held current settles.
constexpr double holding_heat = 0.98;
/// Below this share of the held current the element cools as fast as with no current.
constexpr double cool_share = 0.7;
constexpr double highest_multiple = 300.0;

/// Multiples at which the tables are laid: the corners of the line and steps of 4 % between.
std::vector<double> sampled_multiples(const OpeningLine& line) {
  std::vector<double> multiples;
  for (double m = line.points.front().multiple; m < highest_multiple; m *= 1.04) {
    multiples.push_back(m);
  }
  for (const OpeningPoint& point : line.points) multiples.push_back(point.multiple);
  std::ranges::sort(multiples);
  const auto close = [](double a, double b) { return b < 1.001 * a; };
  multiples.erase(std::unique(multiples.begin(), multiples.end(), close), multiples.end());
  return multiples;
}

}  // namespace

FuseCurve::FuseCurve(const std::vector<Gate>& gates, double cools_s, FuseLaw law,
                     MeltingIntegral melting) {
  const OpeningLine line = opening_line(gates, law, melting);
  std::vector<double> x;
  std::vector<double> heating;
  std::vector<double> cooling;
  const auto lay = [&](double multiple, double f_per_s, double c_per_s) {
    x.push_back(place(multiple * multiple));
    heating.push_back(std::log(f_per_s / (multiple * multiple)));
    cooling.push_back(std::log(c_per_s));
  };
  const auto held = [&](double multiple, double c_per_s) {
    const double share = multiple / line.holds;
    lay(multiple, c_per_s * holding_heat * share * share, c_per_s);
  };
  const double slowest_per_s =
      1.0 / std::max(cools_s, line.points.front().opens_s / most_time_constants);
  held(0.01, 1.0 / cools_s);
  held(cool_share * line.holds, 1.0 / cools_s);
  held(line.holds, slowest_per_s);
  for (const double multiple : sampled_multiples(line)) {
    const double t_s = line.opens_s(multiple);
    const double c_per_s = 1.0 / std::max(cools_s, t_s / most_time_constants);
    lay(multiple, c_per_s / -std::expm1(-c_per_s * t_s), c_per_s);
  }
  log_heating_ = numeric::Table(x, std::move(heating));
  log_cooling_ = numeric::Table(std::move(x), std::move(cooling));
}

std::optional<double> FuseCurve::opening_time_s(double multiple) const {
  const double c = cooling(multiple * multiple);
  const double f = heating(multiple * multiple);
  if (f <= c) return std::nullopt;
  return -std::log1p(-c / f) / c;
}

}  // namespace tideover::part

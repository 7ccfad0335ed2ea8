#include "part/wire/gauge.hpp"

#include <cmath>
#include <numbers>

#include "base/contract.hpp"

namespace tideover::part {

using quantity::Metre;
using quantity::SquareMetre;

Metre gauge_diameter(int gauge) {
  TIDEOVER_EXPECT(gauge >= thickest_gauge && gauge <= thinnest_gauge, "gauge is not in the table");
  constexpr double thinnest_m = 0.005 * 0.0254;
  return Metre::of_si(thinnest_m * std::pow(92.0, (36 - gauge) / 39.0));
}

SquareMetre gauge_area(int gauge) {
  const Metre diameter = gauge_diameter(gauge);
  return 0.25 * std::numbers::pi * (diameter * diameter);
}

Metre diameter_of(SquareMetre area) {
  return Metre::of_si(std::sqrt(4.0 * area.si() / std::numbers::pi));
}

std::optional<int> gauge_of(SquareMetre area) {
  for (int gauge = thickest_gauge; gauge <= thinnest_gauge; ++gauge) {
    const double there = gauge_area(gauge).si();
    if (std::abs(area.si() - there) <= 1e-3 * there) return gauge;
  }
  return std::nullopt;
}

}  // namespace tideover::part

#include "part/preferred_value.hpp"

#include <array>
#include <cmath>
#include <limits>

#include "base/contract.hpp"

namespace tideover::part {

using quantity::Farad;
using quantity::Ohm;

namespace {

constexpr std::array e6{10, 15, 22, 33, 47, 68};
constexpr std::array e12{10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82};
constexpr std::array e24{10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30,
                         33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91};

std::array<int, 96> make_e96() {
  std::array<int, 96> made{};
  for (std::size_t n = 0; n < made.size(); ++n) {
    made[n] = static_cast<int>(std::lround(100.0 * std::pow(10.0, static_cast<double>(n) / 96.0)));
  }
  return made;
}

}  // namespace

std::span<const int> decade_of(Series series) {
  static const std::array<int, 96> e96 = make_e96();
  if (series == Series::E6) return e6;
  if (series == Series::E12) return e12;
  if (series == Series::E24) return e24;
  return e96;
}

Ohm nearest_preferred(Ohm wanted, Series series) {
  TIDEOVER_EXPECT(wanted.si() > 0.0, "a preferred value is positive");
  const auto decade = decade_of(series);
  const double first = decade.front();
  const double power = std::pow(10.0, std::floor(std::log10(wanted.si())));
  double best = 0.0;
  double least = std::numeric_limits<double>::infinity();
  const auto consider = [&](double candidate) {
    const double away = std::abs(std::log(candidate / wanted.si()));
    if (away >= least) return;
    least = away;
    best = candidate;
  };
  for (const int value : decade) consider(power * value / first);
  consider(10.0 * power);
  return Ohm::of_si(best);
}

Farad preferred_at_least(Farad wanted, Series series) {
  TIDEOVER_EXPECT(wanted.si() > 0.0, "a preferred value is positive");
  constexpr double same = 1.0 - 1e-6;
  const auto decade = decade_of(series);
  const double power = std::pow(10.0, std::floor(std::log10(wanted.si())));
  for (const int value : decade) {
    const double candidate = power * value / decade.front();
    if (candidate >= same * wanted.si()) return Farad::of_si(candidate);
  }
  return Farad::of_si(10.0 * power);
}

}  // namespace tideover::part

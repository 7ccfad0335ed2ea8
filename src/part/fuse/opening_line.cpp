#include "part/fuse/opening_line.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"

namespace tideover::part {

namespace {

/// How far inside its band (of ln t) an edge law keeps.
constexpr double inside = 0.02;
/// A line begins just above the current that is held, at the hour that standards test.
constexpr double above_holding = 1.02;
constexpr double slowest_opening_s = 3600.0;
/// The latest law holds what lies this much below the first current that must open it.
constexpr double below_opening = 0.97;

double mix(double low_s, double high_s, double share) {
  return std::exp(std::log(low_s) + share * (std::log(high_s) - std::log(low_s)));
}

double holding_multiple(const std::vector<Gate>& gates) {
  double multiple = 0.0;
  for (const Gate& gate : gates) {
    if (gate.is_holding()) multiple = gate.multiple;
  }
  TIDEOVER_EXPECT(multiple > 0.0, "gates of a fuse say what it holds");
  return multiple;
}

double integral_of(const OpeningPoint& point) {
  return point.opens_s * point.multiple * point.multiple;
}

/// I2t never shrinks towards lower current: what melts slower also loses heat meanwhile. So a late
/// time at high current asks for a late one below it,
void raise_to_integral_above(std::vector<OpeningPoint>& points) {
  for (std::size_t k = points.size() - 1; k > 0; --k) {
    OpeningPoint& below = points[k - 1];
    below.opens_s =
        std::max(below.opens_s, integral_of(points[k]) / below.multiple / below.multiple);
  }
}
/// and a gate's latest time caps those above it.
void cap_at_integral_below(std::vector<OpeningPoint>& points) {
  for (std::size_t k = 1; k < points.size(); ++k) {
    OpeningPoint& above = points[k];
    above.opens_s =
        std::min(above.opens_s, integral_of(points[k - 1]) / above.multiple / above.multiple);
  }
}

/// Lower edge, before a stated melting I2t has its say. A last gate without an earliest time goes
/// on at the I2t of the gate before it.
OpeningLine lower_edge(const std::vector<Gate>& gates) {
  OpeningLine line{holding_multiple(gates), {}};
  line.points.push_back({line.holds * above_holding, slowest_opening_s});
  for (const Gate& gate : gates) {
    if (gate.is_holding() || gate.at_least_s <= 0.0) continue;
    line.points.push_back({gate.multiple, mix(gate.at_least_s, gate.at_most_s, inside)});
  }
  const Gate& last = gates.back();
  if (last.at_least_s <= 0.0) {
    const double opens_s = line.opens_s(last.multiple);
    line.points.push_back({last.multiple, std::min(opens_s, last.at_most_s * (1.0 - inside))});
  }
  raise_to_integral_above(line.points);
  return line;
}

OpeningLine upper_edge(const std::vector<Gate>& gates, const OpeningLine& lower) {
  OpeningLine line;
  for (const Gate& gate : gates) {
    if (gate.is_holding()) continue;
    line.points.push_back(
        {gate.multiple, mix(lower.opens_s(gate.multiple), gate.at_most_s, 1.0 - inside)});
  }
  cap_at_integral_below(line.points);
  line.holds = line.points.front().multiple * below_opening;
  return line;
}

OpeningLine middle(const OpeningLine& lower, const OpeningLine& upper) {
  OpeningLine line{std::sqrt(lower.holds * upper.holds), {}};
  line.points.push_back({line.holds * above_holding, slowest_opening_s});
  for (const OpeningPoint& point : upper.points) {
    line.points.push_back(
        {point.multiple, std::sqrt(point.opens_s * lower.opens_s(point.multiple))});
  }
  return line;
}

/// At the last gate and beyond, the stated I2t counts instead of the band, as far as it lies in it.
void use_melting(OpeningLine& line, double integral, const OpeningLine& lower,
                 const OpeningLine& upper) {
  OpeningPoint& last = line.points.back();
  const double opens_s = integral / (last.multiple * last.multiple);
  last.opens_s = std::clamp(opens_s, lower.points.back().opens_s, upper.points.back().opens_s);
}

}  // namespace

double OpeningLine::opens_s(double multiple) const {
  std::size_t k = 0;
  while (k < points.size() && points[k].multiple < multiple) ++k;
  if (k == 0) return points.front().opens_s;
  const OpeningPoint& before = points[k - 1];
  const double along = std::log(multiple / before.multiple);
  if (k == points.size()) return before.opens_s * std::exp(-2.0 * along);
  const OpeningPoint& after = points[k];
  return mix(before.opens_s, after.opens_s, along / std::log(after.multiple / before.multiple));
}

OpeningLine opening_line(const std::vector<Gate>& gates, FuseLaw law, MeltingIntegral melting) {
  const OpeningLine lower = lower_edge(gates);
  const OpeningLine upper = upper_edge(gates, lower);
  OpeningLine line = law == FuseLaw::Earliest ? lower
                     : law == FuseLaw::Latest ? upper
                                              : middle(lower, upper);
  if (melting.nominal > 0.0) {
    use_melting(line,
                law == FuseLaw::Earliest ? melting.low
                : law == FuseLaw::Latest ? melting.high
                                         : melting.nominal,
                lower, upper);
  }
  raise_to_integral_above(line.points);
  return line;
}

}  // namespace tideover::part

/// From points read off a datasheet's forward curve to the numbers of the junction law.
#pragma once

#include <vector>

#include "base/result.hpp"
#include "quantity/units.hpp"

namespace tideover::part {

/// One point of a forward curve.
struct ForwardPoint {
  quantity::Volt voltage;
  quantity::Ampere current;
};

/// What a fit settles: Is, n and Rs of part/junction_law.hpp at the temperature of the points.
struct JunctionFit {
  quantity::Ampere saturation;
  double ideality = 1.0;
  quantity::Ohm series;
};

/// Bounds of a believable ideality: 1 is diffusion, 2 recombination, more is seen in rectifiers
/// with a wide middle layer. What falls outside is no junction (common practice, no source).
inline constexpr double least_ideality = 0.8;
inline constexpr double greatest_ideality = 4.0;

/// Exact through one to three points of v = n VT ln(1 + i/Is) + i Rs.
///   three points: n, Rs and Is;
///   two points: Rs and Is with `ideality`;
///   one point: Is with `ideality` and `series`.
/// Refused with a Problem that says why: points that do not rise, currents not above zero, an
/// ideality outside the bounds above, a negative series resistance. Limits (the "max" column) and
/// rounded typicals often do not lie on one curve: then the refusal is the answer.
[[nodiscard]] base::Result<JunctionFit> fit_junction(std::vector<ForwardPoint> points,
                                                     quantity::Temperature temperature,
                                                     double ideality, quantity::Ohm series);

}  // namespace tideover::part

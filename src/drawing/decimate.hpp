/// Fewer points for the same picture: of a long series only what a printed column can show is kept.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace tideover::drawing {

/// Indices of kept samples, rising. One run is one unbroken line.
using Run = std::vector<std::size_t>;

/// Of each column of `column` width along x, the lowest and the highest sample; the first and last
/// of every run; and where columns are empty, the last sample before and the first after them, so
/// that a level held for long is not drawn as a slope. Every kept point is a point of the input, so
/// extremes survive exactly. At most two samples a column, plus two a run and two an empty stretch.
///
/// x is finite and never falls; x and y are equally long. A y that is not finite breaks the line,
/// unless the finite samples around it lie less than a column apart, where no eye could see a gap.
[[nodiscard]] std::vector<Run> decimated(std::span<const double> x, std::span<const double> y,
                                         double column);

}  // namespace tideover::drawing

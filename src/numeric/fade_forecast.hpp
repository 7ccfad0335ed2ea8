/// How something that wears goes on: a middle and a band, from its own record alone.
///
/// Middle: four robust straight lines, through the record and through its later half, of the value
/// (the same loss each step) and of its logarithm (the same share each step). Slopes are Theil's
/// and Sen's (Sen, J. Am. Stat. Assoc. 63 (1968) 1379): jumps upward after a rest bend them little.
/// Lines are weighed by how each has foretold this record before, inversely to its mean square
/// error (Bates and Granger, Oper. Res. Q. 20 (1969) 451). What the record last lay off the lines
/// dies out at the rate at which it has done so.
///
/// Band: the record is cut at many origins, and the whole procedure foretells up to half as much
/// again as it has seen there. Errors are taken to grow as a random walk's, variance q times lead,
/// with q the mean of square error over lead. Windows that overlap tell little more than one, so
/// that Student's factor counts those that do not: each half as long again as the one before, from
/// the first origin on. Sources from memory.
///
/// Beyond half the record's length again nothing of this was tried: see `tried_until`.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

namespace tideover::numeric {

struct FadePoint {
  double at = 0.0;      ///< cycle number or time, rising
  double low = 0.0;     ///< 5 of 100 lie below, if the band is honest
  double middle = 0.0;  ///< 50 of 100
  double high = 0.0;    ///< 5 of 100 lie above
};

struct FadeForecast {
  std::vector<FadePoint> points;
  std::array<double, 4> weights{};  ///< loss: all, later half; share: all, later half
  double variance_rate = 0.0;       ///< q: square error over lead
  double student = 0.0;             ///< half-width of the band over its standard deviation
  double tried_until = 0.0;         ///< where the band ends that such errors stand behind
};

/// Records shorter than this are not foretold.
inline constexpr std::size_t least_fade_points = 24;
/// Longer records are taken as the medians of at most so many stretches of them.
inline constexpr std::size_t most_fade_points = 160;

/// `x` rises strictly, `y` is above 0, both at least `least_fade_points` long; `at` rises and lies
/// behind the record. The middle stays above 0, and the band at or above it.
[[nodiscard]] FadeForecast forecast_fade(std::vector<double> x, std::vector<double> y,
                                         const std::vector<double>& at);

}  // namespace tideover::numeric

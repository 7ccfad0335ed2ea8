/// How a logger's counter of charge follows the current beside it.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "cell/log.hpp"

namespace tideover::cell {

/// Time and current of a log while its counter is judged; the current has the file's own sign.
struct CurrentOverTime {
  std::span<const double> time_s;
  std::span<const double> current_a;
  /// Samples before which time or run began anew, rising.
  std::span<const std::size_t> breaks;
};

enum class Counting {
  WithCurrent,     ///< rises while the file's current is positive, falls while it is negative
  AgainstCurrent,  ///< the other way round
  Upward,          ///< rises whatever the direction: the sum of what went in and what went out
  Unclear,         ///< does not follow the current
};

/// Judged over the stretches in which the current keeps its direction: their charge by the counter
/// against the integral of the current.
[[nodiscard]] Counting counting_of(std::span<const double> counter_as, const CurrentOverTime& seen);

/// How many times the integral of the current the counter moves: the median over stretches with
/// current, 0 if nothing can be said. Tells units apart.
[[nodiscard]] double counter_scale(std::span<const double> counter_as, const CurrentOverTime& seen);

/// A counter that only rises and starts again from zero, carried on. The number of new starts.
int carry_on(std::vector<double>& counter_as);

/// The same for a counter that follows the current with a sign: 1 with it, -1 against it. Only
/// where no time was lost; behind a break or a pause a counter at zero stays there.
int carry_on_signed(std::vector<double>& counter_as, const CurrentOverTime& seen, int sign);

/// Makes an upward counter one that falls when the current is negative.
void give_direction(std::vector<double>& counter_as, std::span<const double> current_a);

/// Over the steps of the current: whether the counter moves by the later sample's current for the
/// whole time between, or by the mean of the two. `Straight` unless the other is plainly nearer.
[[nodiscard]] Between between_by_counter(std::span<const double> counter_as,
                                         const CurrentOverTime& seen, int sign);

/// A change of the current by more than this is a step: a twentieth of the largest.
[[nodiscard]] double step_of_current_a(std::span<const double> current_a);

/// The usual time between samples: the median.
[[nodiscard]] double usual_interval_s(std::span<const double> time_s);

}  // namespace tideover::cell

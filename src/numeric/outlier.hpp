/// Whether one number of many belongs to the others: the modified z-score.
///
///     M = 0.6745 (x - median) / MAD,   MAD = median of |x - median|
/// and where more than half are equal, so that MAD is 0, (x - median) over 1.2533 times the mean of
/// |x - median|. Above 3.5 either way a number is called an outlier.
/// Source: Iglewicz and Hoaglin, How to Detect and Handle Outliers, ASQC 1993 (from memory).
#pragma once

#include <cstddef>
#include <vector>

namespace tideover::numeric {

struct Family {
  double median = 0.0;
  double scale = 0.0;  ///< such that a score is (x - median) over it; 0 if all are equal
  std::size_t count = 0;
  /// 0 where all are equal.
  [[nodiscard]] double score(double x) const { return scale > 0.0 ? (x - median) / scale : 0.0; }
};

inline constexpr double outlier_score = 3.5;

/// Of at least one number.
[[nodiscard]] Family family_of(std::vector<double> numbers);

}  // namespace tideover::numeric

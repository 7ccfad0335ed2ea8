/// Which of many inputs a result follows, from few draws: a sum of single inputs, fitted by taking
/// in turn the one that what is left follows most, as long as chance would hardly make it so.
/// Source: matching pursuit, Mallat and Zhang, IEEE Trans. Signal Process. 41 (1993) 3397 (from
/// memory).
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace tideover::numeric {

struct Pursuit {
  double mean = 0.0;
  std::vector<double> coefficients;  ///< of each input; most of them nought
  /// mean + sum of coefficients times inputs.
  [[nodiscard]] double at(std::span<const double> inputs) const;
};

/// `draws` has a row of inputs for each of `results`; inputs have mean 0 and variance 1, whence a
/// squared coefficient is the variance that the input makes. Without draws all is nought.
[[nodiscard]] Pursuit pursue(const std::vector<std::vector<double>>& draws,
                             std::span<const double> results);

}  // namespace tideover::numeric

#pragma once

#include <cmath>

namespace tideover::tests {

/// |actual / expected - 1|.
[[nodiscard]] inline double relative_error(double actual, double expected) {
  return std::abs(actual / expected - 1.0);
}

}  // namespace tideover::tests

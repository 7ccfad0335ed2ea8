/// How far a stretch of samples keeps its current, its power or its voltage.
#pragma once

#include <cstddef>

#include "cell/log.hpp"
#include "cell/steps.hpp"

namespace tideover::cell {

/// What counts as rest and as constant in one log.
struct StepTolerance {
  double rest_a = 0.0;   ///< a current up to this is none
  double floor_a = 0.0;  ///< constant within this, whatever the current
  double share = 0.025;  ///< or within this share of it
  double hold_v = 0.0;   ///< a held voltage stays within this
};

[[nodiscard]] StepTolerance tolerance_of(const Log& log);

struct Fit {
  Step::Kind kind = Step::Kind::Varying;
  std::size_t end = 0;  ///< one past the last sample that fits
};

/// The model that holds longest from sample `first` on, before `end`; one sample or two amid more
/// may stray. A constant current is believed first where several hold.
[[nodiscard]] Fit longest_fit(const Log& log, const StepTolerance& tolerance, std::size_t first,
                              std::size_t end);

}  // namespace tideover::cell

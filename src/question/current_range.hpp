/// Currents at which what falls in bends and steps is looked at.
#pragma once

#include <vector>

#include "quantity/units.hpp"

namespace tideover::question {

/// Rising: both ends, `steps` equal ratios between them, and those of `corners` that lie between,
/// each with its neighbour a billionth above, behind which a step down lies. 0 < from <= to.
[[nodiscard]] std::vector<quantity::Ampere> currents_between(
    quantity::Ampere from, quantity::Ampere to, int steps,
    const std::vector<quantity::Ampere>& corners);

}  // namespace tideover::question

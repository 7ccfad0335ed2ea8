/// A build whose loads draw their mean.
#pragma once

#include "build/build.hpp"

namespace tideover::question {

/// The bursts of each load's profile are one mean draw: for runs of years, and for hundreds of
/// runs. What a burst alone would do (a dip, a fuse's pulse) is not seen in it.
[[nodiscard]] build::Build without_bursts(const build::Build& build);

}  // namespace tideover::question

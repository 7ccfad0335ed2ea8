/// A build whose loads draw evenly: their bursts as one mean draw.
#pragma once

#include "build/build.hpp"

namespace tideover::question {

/// For years in the dark, and for thousands of draws, where when a burst falls tells nothing.
[[nodiscard]] build::Build without_bursts(const build::Build& build);

}  // namespace tideover::question

/// What brings a part to rest that switches to and fro.
#pragma once

#include <string>

#include "build/build.hpp"

namespace tideover::finding {

/// Which threshold of that kind of part to move, or what to give it: "up24: lockout_release above
/// 8 V, further from where it stops (7.44 V); or less resistance before it."
[[nodiscard]] std::string calmed_by(const build::Build& build, const std::string& name);

}  // namespace tideover::finding

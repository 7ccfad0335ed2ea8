/// Changes of source for people who read of them in a terminal.
#pragma once

#include <vector>

#include "question/changeover.hpp"
#include "service/verb.hpp"

namespace tideover::service {

[[nodiscard]] Status status_of(const question::Changeovers& changes);
[[nodiscard]] std::vector<Line> changeover_lines(const build::Build& build,
                                                 const question::Changeovers& changes);

}  // namespace tideover::service

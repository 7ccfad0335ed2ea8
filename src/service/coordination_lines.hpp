/// Coordination for people who read of it in a terminal.
#pragma once

#include <vector>

#include "question/coordination.hpp"
#include "service/verb.hpp"

namespace tideover::service {

/// Under a heading of its own: what it comes to, the leads that nothing protects and the others
/// that are not protected well, the fuses in a row; what is in order in one line.
[[nodiscard]] std::vector<Line> coordination_lines(const question::Coordination& answer);

}  // namespace tideover::service

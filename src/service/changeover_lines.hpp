/// Changes of source for people who read of them in a terminal.
#pragma once

#include <vector>

#include "question/changeover.hpp"
#include "service/verb.hpp"

namespace tideover::service {

[[nodiscard]] Status status_of(const question::Changeovers& changes);
/// What it comes to, under a heading of its own: for answers to more than this question.
[[nodiscard]] std::vector<Line> changeover_headline(const question::Changeovers& changes);
[[nodiscard]] std::vector<Line> changeover_lines(const build::Build& build,
                                                 const question::Changeovers& changes);

}  // namespace tideover::service

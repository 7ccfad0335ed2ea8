/// Changes of source as figures: milliseconds, every load's voltage with the range it accepts.
#pragma once

#include <optional>

#include "papers/story_plots.hpp"
#include "question/changeover.hpp"

namespace tideover::papers {

/// One change: a panel for each load with a line for every view, the hardest first, and, where
/// relays or adapters act, what their coils and outputs do in that one. Marks are of the hardest.
[[nodiscard]] std::optional<Story> changeover_figure(const build::Build& build,
                                                     const question::Changeover& change);

}  // namespace tideover::papers

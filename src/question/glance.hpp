/// The reduced question for a value that is being dragged: a prediction from one run.
#pragma once

#include "question/predict.hpp"

namespace tideover::question {

/// One outage until the pack is cut off, and the recharge after it, with the cells as they are in
/// the middle of the stated ambient and the loads at their mean. Needs and rules are judged on that
/// run alone; `worn`, `hot`, `others`, `dark` and `storage` are not tried. What bursts, cold, heat
/// and age would do is not seen: the whole question must follow.
[[nodiscard]] Prediction glance(const build::Build& build, const run::Settings& settings,
                                base::Progress& progress);

}  // namespace tideover::question

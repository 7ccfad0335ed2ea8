/// What the changes of source add to the verdict.
#pragma once

#include "question/changeover.hpp"
#include "question/predict.hpp"

namespace tideover::question {

/// One judgement for each load and change of source that it does not ride through, or narrowly.
/// Where the runs of the prediction show it themselves (Matter::Service), it is not told twice.
[[nodiscard]] std::vector<Judgement> judge_changes(const Changeovers& changes,
                                                   const Prediction& prediction);

}  // namespace tideover::question

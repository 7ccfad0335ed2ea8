/// What the sheet asks for, held against the runs.
#pragma once

#include <vector>

#include "question/verdict.hpp"

namespace tideover::question {

/// Runs that were stopped or could not be continued: nothing after that is known.
[[nodiscard]] std::vector<Judgement> judge_runs(const Evidence& evidence);
/// Every load served through an outage as long as asked, as built and at the end of life.
[[nodiscard]] std::vector<Judgement> judge_outlast(const Evidence& evidence);
/// Loads that restart when the mains goes or comes back, in any circumstance.
[[nodiscard]] std::vector<Judgement> judge_service(const Evidence& evidence);
/// Full again as soon as asked, as built and at the end of life.
[[nodiscard]] std::vector<Judgement> judge_recharge(const Evidence& evidence);
/// The cells serve for the years asked for, by the life that the sheet states of them.
[[nodiscard]] std::vector<Judgement> judge_life(const Evidence& evidence);

}  // namespace tideover::question

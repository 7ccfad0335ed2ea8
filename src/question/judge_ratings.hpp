/// What parts are made for, held against what the runs ask of them.
#pragma once

#include <vector>

#include "question/verdict.hpp"

namespace tideover::question {

/// One judgement for every rating exceeded for longer than it stands, by the worst trial.
[[nodiscard]] std::vector<Judgement> judge_ratings(const Evidence& evidence);
/// Adapters that give nearly all they can for more than a minute.
[[nodiscard]] std::vector<Judgement> judge_head_room(const Evidence& evidence);
/// Loads that lose more than `wire_loss_share` of their voltage in their own leads.
[[nodiscard]] std::vector<Judgement> judge_wire_loss(const Evidence& evidence);
/// Parts that switch to and fro.
[[nodiscard]] std::vector<Judgement> judge_chatter(const Evidence& evidence);

}  // namespace tideover::question

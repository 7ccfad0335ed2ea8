/// What is wrong or broken whatever else is well: said before anything else.
#pragma once

#include <vector>

#include "question/verdict.hpp"

namespace tideover::question {

/// Parts that are fed backwards: plus and minus the wrong way round, or a diode that only blocks
/// while a load wants for current.
[[nodiscard]] std::vector<Judgement> judge_polarity(const Evidence& evidence);
/// A pack that is cut off before anything has happened.
[[nodiscard]] std::vector<Judgement> judge_cut_off(const Evidence& evidence);
/// Fuses that blow and cut-outs that open for good.
[[nodiscard]] std::vector<Judgement> judge_broken(const Evidence& evidence);

}  // namespace tideover::question

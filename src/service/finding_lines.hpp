/// Findings as lines for a terminal, worst first.
#pragma once

#include <vector>

#include "question/predict.hpp"
#include "service/verb.hpp"

namespace tideover::service {

[[nodiscard]] std::vector<Line> finding_lines(const build::Build& build,
                                              const question::Prediction& prediction);

[[nodiscard]] Tone tone_of(finding::Answer answer);

}  // namespace tideover::service

/// A prediction for people who read it in a terminal.
#pragma once

#include <vector>

#include "question/predict.hpp"
#include "service/verb.hpp"

namespace tideover::service {

[[nodiscard]] Status status_of(const question::Prediction& prediction);
[[nodiscard]] std::vector<Line> prediction_lines(const build::Build& build,
                                                 const question::Prediction& prediction);

}  // namespace tideover::service

/// A prediction and a record for programs. Keys that hold a quantity end in its unit: `_s`, `_w`,
/// `_j`, `_v`; channels carry their unit beside them. Times count from the start of the run where
/// they end in `at_s`, else from what the key says.
#pragma once

#include "question/predict.hpp"
#include "service/json.hpp"

namespace tideover::service {

[[nodiscard]] Json::Object prediction_json(const question::Prediction& prediction);
/// Everything one run left behind; samples only if asked for: thinned as
/// question/thinning.hpp says, to seven digits.
enum class Samples { Left, Taken };
[[nodiscard]] Json::Object record_json(const run::Record& record, Samples samples);

}  // namespace tideover::service

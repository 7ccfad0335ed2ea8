/// Changes of source for programs. Keys that hold a quantity end in its unit; times ending in
/// `after_s` count from the change.
#pragma once

#include "question/changeover.hpp"
#include "service/json.hpp"

namespace tideover::service {

[[nodiscard]] Json::Object changeover_json(const question::Changeovers& changes);

}  // namespace tideover::service

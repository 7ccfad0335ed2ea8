#pragma once

#include "service/verb.hpp"

namespace tideover::service {

[[nodiscard]] Verb predict_verb();

}  // namespace tideover::service

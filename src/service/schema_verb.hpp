#pragma once

#include "service/verb.hpp"

namespace tideover::service {

[[nodiscard]] Verb schema_verb();

}  // namespace tideover::service

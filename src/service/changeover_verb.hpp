#pragma once

#include "service/verb.hpp"

namespace tideover::service {

[[nodiscard]] Verb changeover_verb();

}  // namespace tideover::service

#pragma once

#include "service/verb.hpp"

namespace tideover::service {

[[nodiscard]] Verb read_verb();

}  // namespace tideover::service

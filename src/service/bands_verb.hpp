#pragma once

#include "service/verb.hpp"

namespace tideover::service {

[[nodiscard]] Verb bands_verb();

}  // namespace tideover::service

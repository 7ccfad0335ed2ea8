/// `tideover check`: what the rules of the trade find in a build.
#pragma once

#include "service/verb.hpp"

namespace tideover::service {

[[nodiscard]] Verb check_verb();

}  // namespace tideover::service

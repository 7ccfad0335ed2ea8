/// `trace`: one run through time.
#pragma once

#include "service/verb.hpp"

namespace tideover::service {

[[nodiscard]] Verb trace_verb();

}  // namespace tideover::service

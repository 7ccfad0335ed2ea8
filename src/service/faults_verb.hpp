/// `tideover faults`: what happens when any single thing fails.
#pragma once

#include "service/verb.hpp"

namespace tideover::service {

[[nodiscard]] Verb faults_verb();

}  // namespace tideover::service

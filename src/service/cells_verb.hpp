/// `tideover cells`: what the logs and tables of a lot say; a cell fitted to its logs.
#pragma once

#include "service/verb.hpp"

namespace tideover::service {

[[nodiscard]] Verb cells_verb();

}  // namespace tideover::service

/// `tideover cell-run`: one cell alone under a load file.
#pragma once

#include "service/verb.hpp"

namespace tideover::service {

[[nodiscard]] Verb cell_run_verb();

}  // namespace tideover::service

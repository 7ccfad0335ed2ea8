#pragma once

#include "service/verb.hpp"

namespace tideover::service {

/// The lists of the shelf; of one list its rows with their values and sources.
[[nodiscard]] Verb shelf_verb();

}  // namespace tideover::service

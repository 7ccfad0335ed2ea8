#pragma once

#include "service/verb.hpp"

namespace tideover::service {

/// The kinds of parts with their terminals and the keys that must be given; of one kind all keys.
[[nodiscard]] Verb kinds_verb();

}  // namespace tideover::service

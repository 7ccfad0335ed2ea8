/// `values`: every value of the sheet.
#pragma once

#include "service/verb.hpp"

namespace tideover::service {

[[nodiscard]] Verb values_verb();

}  // namespace tideover::service

#pragma once

#include "service/verb.hpp"

namespace tideover::service {

[[nodiscard]] Verb report_verb();

}  // namespace tideover::service

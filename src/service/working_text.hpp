/// The text of the sheet that a request is about.
#pragma once

#include <string>

#include "base/result.hpp"
#include "service/verb.hpp"

namespace tideover::service {

/// As read_project() takes it, before any value is set.
[[nodiscard]] base::Result<std::string> working_text(const Request& request);

}  // namespace tideover::service

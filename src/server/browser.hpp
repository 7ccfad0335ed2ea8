/// The browser that the user's desktop has set up.
#pragma once

#include <string>

#include "base/problem.hpp"

namespace tideover::server {

/// Asks the desktop to open the address (xdg-open) and goes on; a problem if it cannot be asked.
[[nodiscard]] base::Problems start_browser(const std::string& address);

}  // namespace tideover::server

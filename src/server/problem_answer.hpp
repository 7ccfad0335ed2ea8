/// A refusal as application/problem+json (RFC 9457) with our problems in it.
#pragma once

#include <string>

#include "base/problem.hpp"
#include "server/http.hpp"

namespace tideover::server {

/// {"title", "status", "problems"}.
[[nodiscard]] HttpAnswer problem_answer(int status, const std::string& title,
                                        const base::Problems& problems = {});

/// What every answer carries: nothing is kept, guessed, framed or fetched from elsewhere.
[[nodiscard]] HttpFields protective_fields();

}  // namespace tideover::server

/// The program behind main(): reads the call, has it answered, prints.
#pragma once

#include <string>
#include <vector>

namespace tideover::cli {

/// Returns the exit status; see service::Status.
[[nodiscard]] int run_program(const std::vector<std::string>& words);

}  // namespace tideover::cli

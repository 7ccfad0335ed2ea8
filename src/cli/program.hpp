/// The program behind main(): reads the call, has it answered, prints.
#pragma once

#include <string>
#include <vector>

#include "cli/command_line.hpp"

namespace tideover::cli {

/// Returns the exit status; see service::Status. `faces` are verbs beside the service's own: those
/// that go on serving until the user stops them.
[[nodiscard]] int run_program(const std::vector<std::string>& words, const Verbs& faces = {});

}  // namespace tideover::cli

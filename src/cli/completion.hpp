/// Scripts that complete verbs, options and folders in a shell; made from the list of verbs.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cli/command_line.hpp"

namespace tideover::cli {

[[nodiscard]] std::vector<std::string> completion_shells();  ///< "bash", "zsh", "fish"
/// `shell` is one of them.
[[nodiscard]] std::string completion_script(std::string_view shell,
                                            const Verbs& verbs = service::verbs());

}  // namespace tideover::cli

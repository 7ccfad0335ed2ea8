/// What was typed, as a call. The one place that knows the library that reads it.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "service/verb.hpp"

namespace tideover::cli {

/// The service's verbs, and those of other faces that the program starts.
using Verbs = std::vector<service::Verb>;

struct Call {
  enum class What {
    Ask,         ///< `request` of the service
    Print,       ///< `text`: help, version
    Completion,  ///< for the shell named `text`
  };
  What what{};
  service::Request request;
  bool as_json = false;
  std::string text;
};

/// `words` are the arguments without the program's name. A problem has no place; its remedy names
/// the nearest word that exists.
[[nodiscard]] base::Result<Call> read_command_line(const std::vector<std::string>& words,
                                                   const Verbs& verbs = service::verbs());

}  // namespace tideover::cli

/// The one place that knows the TOML library: text to our tree, or where the parser stopped.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <variant>

#include "base/toml.hpp"

namespace tideover::base {

struct TomlFailure {
  int line = 0;  ///< from 1; 0 if the parser could not tell
  int column = 0;
  std::string text;
};

/// `text` is well-formed UTF-8 without control bytes; `source` is what the nodes will quote from.
/// Its lines are those of the file, the text may have some of them blanked.
[[nodiscard]] std::variant<TomlNode, TomlFailure> parse_toml(
    std::string_view text, const std::shared_ptr<const TomlSource>& source);

}  // namespace tideover::base

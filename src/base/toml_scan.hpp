/// A light look over TOML text before it is parsed: where each statement begins and ends, and the
/// faults that would mislead a parser about everything that follows.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/toml.hpp"

namespace tideover::base {

struct TomlFault {
  TomlMark mark;
  std::string text;
  std::string remedy;
};

/// One header or one key with its value; lines count from 0 here, `last_line` is the last one of
/// the statement.
struct TomlStatement {
  std::size_t first_line = 0;
  std::size_t last_line = 0;
  bool is_header = false;
  std::optional<TomlFault> fault;
};

/// The statements in order. Faults told here: a bracket or a text that never closes, an inline
/// table over several lines, characters outside ASCII in bare words, nesting beyond
/// `deepest_toml`. `lines` are well-formed UTF-8 without control bytes.
[[nodiscard]] std::vector<TomlStatement> scan_toml(const std::vector<std::string>& lines);

/// Byte offset of the `=` behind the key with which `line` begins, or npos.
[[nodiscard]] std::size_t find_equals(std::string_view line);

}  // namespace tideover::base

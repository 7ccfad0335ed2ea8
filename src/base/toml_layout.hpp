/// Where everything stands in the text of a TOML document, in bytes: for changing a text without
/// touching the rest of it. Source of the grammar: TOML 1.0.0.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace tideover::base {

/// Bytes [begin, end) of the text.
struct TomlSpan {
  std::size_t begin = 0;
  std::size_t end = 0;
  [[nodiscard]] std::string_view of(std::string_view text) const {
    return text.substr(begin, end - begin);
  }
};

/// One word of a dotted key; `name` without quotes and escapes.
struct TomlWord {
  std::string name;
  TomlSpan span;
};

struct TomlLayoutEntry;

/// A value as it stands, with what is inside it.
struct TomlLayoutValue {
  enum class Kind { Bare, Text, List, Table };  ///< Bare: numbers, yes and no, dates
  Kind kind = Kind::Bare;
  TomlSpan span;
  std::vector<TomlLayoutValue> items;    ///< of a List
  std::vector<TomlLayoutEntry> entries;  ///< of a Table between braces
};

struct TomlLayoutEntry {
  std::vector<TomlWord> key;
  TomlLayoutValue value;
};

/// One header or one key with its value.
struct TomlLine {
  enum class Kind { Header, Item, Entry };  ///< Item: the header of one more item of a list
  Kind kind = Kind::Entry;
  TomlSpan span;              ///< whole lines, with the comment behind and the line end
  std::vector<TomlWord> key;  ///< as written: of an entry, without the header above it
  TomlLayoutValue value;      ///< of an Entry
  std::size_t header = 0;     ///< how many of the path's words come from the header above
  /// From the root; an item of a list by its number, counted from 1.
  std::vector<std::string> path;
};

/// The lines that hold something, in order. `text` must be sound (`read_toml` has no problems);
/// where it is not, nothing.
[[nodiscard]] std::optional<std::vector<TomlLine>> lay_out_toml(std::string_view text);

/// A value that stands alone, the whole of `text` but for blanks; nothing if it is none.
[[nodiscard]] std::optional<TomlLayoutValue> lay_out_value(std::string_view text);
/// The words of a dotted key, the whole of `text`; nothing if it is none.
[[nodiscard]] std::optional<std::vector<TomlWord>> lay_out_key(std::string_view text);

/// What a Text value says, whichever quotes it has.
[[nodiscard]] std::string text_of(const TomlLayoutValue& value, std::string_view document);

}  // namespace tideover::base

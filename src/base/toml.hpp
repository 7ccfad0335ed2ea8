/// The door to TOML 1.0: text to a tree of our own, in file order, every key and value with its
/// place. Hostile text is met with problems, never with a crash.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"

namespace tideover::base {

inline constexpr std::size_t largest_toml_bytes = 4U << 20U;
/// Every message quotes its line, so that lines without end would be quoted without end.
inline constexpr std::size_t longest_toml_line = 20000;
inline constexpr int deepest_toml = 32;  ///< brackets in brackets, or dots of one key

/// A file's name and lines, shared by all nodes read from it.
struct TomlSource {
  std::string file;
  std::vector<std::string> lines;  ///< without line ends and byte order mark
};

/// Where in its source a node stands; counts from 1, columns in code points.
struct TomlMark {
  int line = 0;
  int column = 0;
  int length = 1;
};

/// With the line it is on.
[[nodiscard]] Place place_of(const TomlMark& mark, const TomlSource& source);

struct TomlEntry;

struct TomlNode {
  enum class Kind { Table, Array, Text, Integer, Real, Boolean, Date };

  Kind kind = Kind::Table;
  TomlMark mark;     ///< the value; of a table under a header, the header
  std::string text;  ///< of a Text; of a Date as RFC 3339 writes it
  std::int64_t integer = 0;
  double real = 0.0;  ///< may be infinite or not a number: TOML can say so
  bool boolean = false;
  std::vector<TomlEntry> entries;  ///< of a Table, in the order of the file
  std::vector<TomlNode> items;     ///< of an Array
  std::shared_ptr<const TomlSource> source;

  /// The value of `key`, or null.
  [[nodiscard]] const TomlNode* find(std::string_view key) const;
  [[nodiscard]] Place place() const;
  /// A stretch of a Text, `offset` and `length` in code points of the text itself. The whole value
  /// where the file spells the text with escapes or over several lines.
  [[nodiscard]] Place place_inside(int offset, int length) const;
};

struct TomlEntry {
  std::string key;
  TomlMark key_mark;
  TomlNode value;

  [[nodiscard]] Place key_place() const;
};

/// "a table", "a list", "text", "a whole number" ...
[[nodiscard]] std::string in_words(TomlNode::Kind kind);

struct TomlReading {
  TomlNode root;      ///< a Table; without the statements that have problems
  Problems problems;  ///< of the syntax; in the order of the file
  /// Nothing was left out of the tree. If not, a missing key proves nothing.
  [[nodiscard]] bool is_whole() const { return problems.empty(); }
};

/// Reads the whole text. A byte order mark and CRLF line ends are fine. After a syntax error the
/// faulty statement is left out and reading goes on, so that independent errors come together (at
/// most 20).
[[nodiscard]] TomlReading read_toml(std::string_view text, const std::string& file_name);

}  // namespace tideover::base

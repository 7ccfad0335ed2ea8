/// A sheet's text and where everything stands in it, by path; kept true over changes.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/toml_layout.hpp"

namespace tideover::build {

using SheetPath = std::vector<std::string>;

[[nodiscard]] bool begins_with(const SheetPath& path, const SheetPath& beginning);

/// What stands at a path. Points into the layout it was taken from, which a change makes anew.
struct SheetPlace {
  const base::TomlLine* line = nullptr;           ///< the header, or the line that holds the value
  const base::TomlLayoutValue* value = nullptr;   ///< null: a table under the header
  const base::TomlLayoutValue* within = nullptr;  ///< what holds the value inside its line, if any
  std::size_t number = 0;                         ///< of the entry or item there
};

/// The value that a path leads through, and what of the path is left.
struct SheetBranch {
  SheetPlace at;
  SheetPath rest;
};

/// One key as it stands, of a header, a line or an inline table.
struct SheetKey {
  SheetPath path;
  base::TomlSpan span;
};
struct SheetLeaf {
  SheetPath path;
  const base::TomlLayoutValue* value = nullptr;
};

class SheetLayout {
 public:
  /// Nothing if `text` is not sound.
  [[nodiscard]] static std::optional<SheetLayout> of(std::string text);

  [[nodiscard]] const std::string& text() const { return text_; }
  [[nodiscard]] const std::vector<base::TomlLine>& lines() const { return lines_; }
  [[nodiscard]] std::string_view bytes(const base::TomlSpan& span) const { return span.of(text_); }

  [[nodiscard]] std::optional<SheetPlace> find(const SheetPath& path) const;
  /// The value on a line that leads on towards `path`, as deep as it goes.
  [[nodiscard]] std::optional<SheetBranch> branch_towards(const SheetPath& path) const;
  /// The header of the innermost table or item around `path`, which is not that header itself.
  [[nodiscard]] const base::TomlLine* header_around(const SheetPath& path) const;
  /// The numbers of all lines of `path` and of what is inside it.
  [[nodiscard]] std::vector<std::size_t> lines_of(const SheetPath& path) const;
  [[nodiscard]] bool has(const SheetPath& path) const;
  /// The last line of a header's own keys; the header where it has none.
  [[nodiscard]] const base::TomlLine& last_of_body(const base::TomlLine& header) const;
  /// Of a list, however it is written.
  [[nodiscard]] std::size_t count_items(const SheetPath& path) const;
  /// The names that stand directly under `path`.
  [[nodiscard]] std::vector<std::string> names_under(const SheetPath& path) const;

  [[nodiscard]] std::vector<SheetKey> keys() const;
  [[nodiscard]] std::vector<SheetLeaf> leaves() const;

  /// "\n" or "\r\n", whichever ends the first line.
  [[nodiscard]] std::string line_end() const;

  /// Puts `by` in the place of bytes; false, and nothing done, if that would be no TOML of ours.
  [[nodiscard]] bool replace(const base::TomlSpan& span, std::string_view by);

 private:
  std::string text_;
  std::vector<base::TomlLine> lines_;
};

}  // namespace tideover::build

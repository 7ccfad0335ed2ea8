/// From a path as the page or a person writes it to where it leads in a sheet, and what may be
/// said there.
#pragma once

#include <string>

#include "base/result.hpp"
#include "build/sheet_layout.hpp"
#include "part/field.hpp"

namespace tideover::build {

/// "parts.pack.cell.capacity" or "pack.capacity", which is the same: a path that begins with no
/// table of a sheet but with the name of a part is meant within that part, and the table a value
/// stands in may be left out where no other of that part has its name.
[[nodiscard]] base::Result<SheetPath> read_sheet_path(const std::string& path,
                                                      const SheetLayout& sheet);

/// What the kind of thing there says about the value at `path`; null where it says nothing.
[[nodiscard]] const part::Field* field_at(const SheetPath& path, const SheetLayout& sheet);

/// As a TOML path, with quotes where they are needed.
[[nodiscard]] std::string show_path(const SheetPath& path);
/// One key as TOML writes it.
[[nodiscard]] std::string key_text(const std::string& name);

/// A value as TOML writes it: `value` itself where it is TOML between brackets or quotes; bare
/// where the field is a count or a flag, or there is no field and it can stand so; else as text, in
/// the quotes that `before` has where that is possible.
[[nodiscard]] std::string value_text(const std::string& value, const part::Field* field,
                                     std::string_view before = {});

}  // namespace tideover::build

/// The single deeds of build/edit_sheet.hpp on a layout. Nothing: it is done; else why it cannot
/// be, and the layout may be half changed.
#pragma once

#include <optional>

#include "base/problem.hpp"
#include "build/edit_sheet.hpp"
#include "build/sheet_layout.hpp"

namespace tideover::build {

using Refused = std::optional<base::Problem>;
using SheetKeys = std::vector<std::pair<std::string, std::string>>;

[[nodiscard]] Refused set_in_sheet(SheetLayout& sheet, const SheetPath& path,
                                   const std::string& value);
/// Of a key, a table or an item: they and what is inside them.
[[nodiscard]] Refused take_from_sheet(SheetLayout& sheet, const SheetPath& path);
[[nodiscard]] Refused add_table_to_sheet(SheetLayout& sheet, const SheetPath& path,
                                         const SheetKeys& keys);
[[nodiscard]] Refused append_item_to_sheet(SheetLayout& sheet, const SheetPath& path,
                                           const SheetKeys& keys);
[[nodiscard]] Refused rename_in_sheet(SheetLayout& sheet, const SheetPath& path,
                                      const std::string& to);

/// That nothing stands at `path`, with the nearest that does.
[[nodiscard]] base::Problem nothing_at(const SheetPath& path, const SheetLayout& sheet);

/// `{ kind = "fan", flow = "20 m3/h" }`; fields as those of `path`.
[[nodiscard]] std::string inline_table(const SheetLayout& sheet, const SheetPath& path,
                                       const SheetKeys& keys);
/// One more entry or item at the end of a table or list between brackets.
[[nodiscard]] bool append_inside(SheetLayout& sheet, const base::TomlLayoutValue& holder,
                                 const std::string& text);
/// A line behind a line.
[[nodiscard]] bool append_line(SheetLayout& sheet, const base::TomlLine& behind,
                               const std::string& line);

}  // namespace tideover::build

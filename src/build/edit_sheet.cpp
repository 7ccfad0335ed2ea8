#include "build/edit_sheet.hpp"

#include "base/contract.hpp"
#include "base/text.hpp"
#include "base/toml.hpp"
#include "build/sheet_editing.hpp"
#include "build/sheet_path.hpp"

namespace tideover::build {

namespace {

Refused carry_out(const Edit& edit, const SheetPath& path, SheetLayout& sheet) {
  switch (edit.deed) {
    case Edit::Deed::Set: return set_in_sheet(sheet, path, edit.value);
    case Edit::Deed::Unset:
    case Edit::Deed::Remove:
    case Edit::Deed::Drop: return take_from_sheet(sheet, path);
    case Edit::Deed::Add: return add_table_to_sheet(sheet, path, edit.keys);
    case Edit::Deed::Append: return append_item_to_sheet(sheet, path, edit.keys);
    case Edit::Deed::Rename: return rename_in_sheet(sheet, path, edit.to);
  }
  return std::nullopt;
}

bool is_sound(const std::string& text) { return base::read_toml(text, "").is_whole(); }

base::Problem unsound(const Edit& edit) {
  return {{},
          "the sheet could not be read any more after the edit of `" + edit.path + "`",
          "Change it in the text."};
}

bool has_broken_text(const Edit& edit) {
  if (base::first_bad_utf8(edit.value + edit.to)) return true;
  for (const auto& [key, value] : edit.keys) {
    if (base::first_bad_utf8(key + value)) return true;
  }
  return false;
}

}  // namespace

base::Result<std::string> edit_sheet(std::string_view text, std::span<const Edit> edits,
                                     const std::string& file_name) {
  const base::TomlReading reading = base::read_toml(text, file_name);
  if (!reading.problems.empty()) return reading.problems;
  auto sheet = SheetLayout::of(std::string(text));
  TIDEOVER_EXPECT(sheet.has_value(), "the layout knows all that the reader takes");
  for (const Edit& edit : edits) {
    const auto path = read_sheet_path(edit.path, *sheet);
    if (!path) return path.problems();
    if (has_broken_text(edit)) return unsound(edit);
    if (auto refused = carry_out(edit, path.value(), *sheet)) return *refused;
    if (sheet->text().size() > base::largest_toml_bytes) return unsound(edit);
  }
  if (!edits.empty() && !is_sound(sheet->text())) return unsound(edits.back());
  return sheet->text();
}

}  // namespace tideover::build

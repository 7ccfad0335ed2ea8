// A new name for a thing of the sheet; what names a part follows it.
#include <algorithm>
#include <array>

#include "build/sheet_editing.hpp"
#include "build/sheet_path.hpp"

namespace tideover::build {

using base::TomlLayoutValue;
using base::TomlSpan;

namespace {

struct Replacement {
  TomlSpan span;
  std::string by;
};

/// "leads.x.between.1" and "joins.x.terminals.3" hold "part.terminal".
bool holds_terminal(const SheetPath& path) {
  return path.size() == 4 && ((path[0] == "leads" && path[2] == "between") ||
                              (path[0] == "joins" && path[2] == "terminals"));
}

/// "start.pack" and "timelines.storm.stretch.2.mains.mains24" are keys that name a part.
bool names_part_by_key(const SheetPath& path) {
  static constexpr std::array<std::string_view, 3> tables{"mains", "switches", "profiles"};
  if (path[0] == "start") return path.size() == 2;
  return path[0] == "timelines" && path.size() == 6 && path[2] == "stretch" &&
         std::ranges::find(tables, path[4]) != tables.end();
}

bool names_part_by_value(const SheetPath& path, const SheetLayout& sheet) {
  const part::Field* const field = field_at(path, sheet);
  if (field == nullptr) return false;
  const auto* const text = std::get_if<part::TextField>(&field->what);
  return text != nullptr && text->names_a_part;
}

void replace_keys(const SheetLayout& sheet, const SheetPath& path, const std::string& to,
                  bool is_part, std::vector<Replacement>& all) {
  for (const SheetKey& key : sheet.keys()) {
    const bool follows = is_part && key.path.back() == path.back() && names_part_by_key(key.path);
    if (key.path == path || follows) all.push_back({key.span, key_text(to)});
  }
}

void replace_mentions(const SheetLayout& sheet, const std::string& part, const std::string& to,
                      std::vector<Replacement>& all) {
  for (const SheetLeaf& leaf : sheet.leaves()) {
    if (leaf.value->kind != TomlLayoutValue::Kind::Text) continue;
    const std::string text = base::text_of(*leaf.value, sheet.text());
    std::string renamed;
    if (holds_terminal(leaf.path) && text.starts_with(part + ".")) {
      renamed = to + text.substr(part.size());
    } else if (text == part && names_part_by_value(leaf.path, sheet)) {
      renamed = to;
    } else {
      continue;
    }
    all.push_back({leaf.value->span, value_text(renamed, nullptr, sheet.bytes(leaf.value->span))});
  }
}

}  // namespace

Refused rename_in_sheet(SheetLayout& sheet, const SheetPath& path, const std::string& to) {
  SheetPath renamed = path;
  renamed.back() = to;
  if (!sheet.has(path)) return nothing_at(path, sheet);
  if (to != path.back() && sheet.has(renamed)) {
    return base::Problem{{}, "`" + show_path(renamed) + "` is there already", "Take another name."};
  }
  const bool is_part = path.size() == 2 && path[0] == "parts";
  std::vector<Replacement> all;
  replace_keys(sheet, path, to, is_part, all);
  if (is_part) replace_mentions(sheet, path.back(), to, all);
  if (all.empty()) {
    return base::Problem{{}, "`" + show_path(path) + "` has no name of its own", ""};
  }
  std::ranges::sort(all, std::ranges::greater(), [](const Replacement& r) { return r.span.begin; });
  std::string text = sheet.text();
  for (const Replacement& one : all) {
    text.replace(one.span.begin, one.span.end - one.span.begin, one.by);
  }
  auto changed = SheetLayout::of(std::move(text));
  if (!changed) return base::Problem{{}, "`" + to + "` is no name", "Take letters and digits."};
  sheet = *std::move(changed);
  return std::nullopt;
}

}  // namespace tideover::build

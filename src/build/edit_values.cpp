// Setting a value where it stands, or where it would.
#include <algorithm>

#include "base/text.hpp"
#include "build/sheet_editing.hpp"
#include "build/sheet_path.hpp"

namespace tideover::build {

using base::TomlLayoutEntry;
using base::TomlLayoutValue;
using base::TomlLine;
using base::TomlSpan;
using Kind = TomlLayoutValue::Kind;

namespace {

base::Problem cannot(const SheetPath& path, const std::string& why, const std::string& remedy) {
  return {{}, "`" + show_path(path) + "` " + why, remedy};
}

Refused unless(bool is_done, const SheetPath& path) {
  if (is_done) return std::nullopt;
  return cannot(path, "cannot take this", "Write it in the text.");
}

const TomlLayoutValue* entry_of(const TomlLayoutValue& table, std::string_view key) {
  for (const TomlLayoutEntry& entry : table.entries) {
    if (entry.key.size() == 1 && entry.key.front().name == key) return &entry.value;
  }
  return nullptr;
}

/// What a single value is put in the place of: of a table with an origin its `value`, of one with a
/// shelf row the row's name; null where a table has neither.
const TomlLayoutValue* single_value(const TomlLayoutValue& found, const std::string& value) {
  if (found.kind != Kind::Table) return &found;
  return entry_of(found, value.starts_with("shelf:") ? "from" : "value");
}

Refused replace_value(SheetLayout& sheet, const SheetPath& path, const TomlLayoutValue& found,
                      const std::string& value) {
  const part::Field* const field = field_at(path, sheet);
  const auto as_given = base::lay_out_value(value);
  const bool is_table = as_given && as_given->kind == Kind::Table;
  const TomlLayoutValue* const target = is_table ? &found : single_value(found, value);
  if (target == nullptr) {
    return cannot(path, "is a table", "Name one of its keys behind another dot.");
  }
  const std::string text = value_text(value, field, sheet.bytes(target->span));
  return unless(sheet.replace(target->span, text), path);
}

bool is_remark(const std::string& key) {
  return key == "origin" || key == "source" || key == "meter";
}

/// `rest = value`, or `rest = { of = value }` where the way goes on.
std::string entry_text(const SheetPath& rest, const std::string& value) {
  std::string text = value;
  for (std::size_t k = rest.size(); k-- > 0;) {
    text = key_text(rest[k]) + " = " + text;
    if (k > 0) text = "{ " + text + " }";
  }
  return text;
}

/// Where the way to `path` ends inside a value on a line.
Refused set_inside(SheetLayout& sheet, const SheetPath& path, const SheetBranch& branch,
                   const std::string& value) {
  const TomlLayoutValue& here = *branch.at.value;
  const std::string entry = entry_text(branch.rest, value_text(value, field_at(path, sheet)));
  if (here.kind == Kind::Table) return unless(append_inside(sheet, here, entry), path);
  if (here.kind == Kind::List) {
    const std::string count = std::to_string(here.items.size());
    return cannot(path, "is not there: the list has " + count + " items",
                  "Append items at its end.");
  }
  const std::string old(sheet.bytes(here.span));
  const bool is_row =
      here.kind == Kind::Text && base::text_of(here, sheet.text()).starts_with("shelf:");
  if (!is_row && (branch.rest.size() != 1 || !is_remark(branch.rest[0]))) {
    return cannot(path, "is inside a value that is no table", "");
  }
  const std::string head = is_row ? "from" : "value";
  return unless(sheet.replace(here.span, "{ " + head + " = " + old + ", " + entry + " }"), path);
}

/// Blanks so that the `=` stands below that of the line above.
std::string aligned(const std::string& key, const TomlLine& above, const SheetLayout& sheet) {
  if (above.kind != TomlLine::Kind::Entry) return key + " ";
  const std::size_t begin = above.key.front().span.begin;
  const std::size_t equals = sheet.text().find('=', above.key.back().span.end);
  const std::size_t width = equals - begin;
  return key + std::string(width > key.size() + 1 ? width - key.size() : 1, ' ');
}

/// A table that has lines of its own further down cannot be opened up again under its parent.
bool has_own_headers(const SheetLayout& sheet, const SheetPath& path) {
  return std::ranges::any_of(sheet.lines(), [&](const TomlLine& line) {
    return line.kind != TomlLine::Kind::Entry && begins_with(line.path, path);
  });
}

/// Below the last line under `header` that gives something inside `path` with dots, if any.
const TomlLine* dotted_sibling(const SheetLayout& sheet, const TomlLine& header,
                               const SheetPath& path) {
  const TomlLine* last = nullptr;
  const TomlLine* const end = &sheet.last_of_body(header) + 1;
  for (const TomlLine* line = &header + 1; line < end; ++line) {
    if (begins_with(line->path, path) && line->path.size() > path.size()) last = line;
  }
  return last;
}

Refused set_under(SheetLayout& sheet, const SheetPath& path, const TomlLine& header,
                  const std::string& value) {
  const auto depth = static_cast<std::ptrdiff_t>(header.path.size());
  const SheetPath rest(path.begin() + depth, path.end());
  const SheetPath next(path.begin(), path.begin() + depth + 1);
  const SheetPath table(path.begin(), path.end() - 1);
  const std::string text = value_text(value, field_at(path, sheet));
  if (rest.size() > 1 && has_own_headers(sheet, next)) {
    return add_table_to_sheet(sheet, table, {{path.back(), value}});
  }
  if (const TomlLine* const sibling = dotted_sibling(sheet, header, next)) {
    return unless(append_line(sheet, *sibling, show_path(rest) + " = " + text), path);
  }
  const TomlLine& above = sheet.last_of_body(header);
  const std::string key = key_text(rest[0]);
  const std::string entry = entry_text(rest, text);
  return unless(
      append_line(sheet, above, aligned(key, above, sheet) + entry.substr(key.size() + 1)), path);
}

/// A value of something that is not in the sheet, or an item that a list has not.
Refused check_ways(const SheetLayout& sheet, const SheetPath& path) {
  static const std::vector<std::string> collections{"parts", "leads", "joins", "timelines"};
  const bool is_named = std::ranges::find(collections, path[0]) != collections.end();
  if (is_named && path.size() > 1 && !sheet.has({path[0], path[1]})) {
    return nothing_at({path[0], path[1]}, sheet);
  }
  for (std::size_t k = 1; k < path.size(); ++k) {
    const SheetPath beginning(path.begin(), path.begin() + static_cast<std::ptrdiff_t>(k));
    const SheetPath item(path.begin(), path.begin() + static_cast<std::ptrdiff_t>(k) + 1);
    const std::size_t count = sheet.count_items(beginning);
    const auto place = sheet.find(beginning);
    const bool is_list = count > 0 && (!place || place->value == nullptr);
    if (!is_list || sheet.has(item)) continue;
    return cannot(item, "is not there: the list has " + std::to_string(count) + " items",
                  "Append items at its end.");
  }
  return std::nullopt;
}

}  // namespace

Refused set_in_sheet(SheetLayout& sheet, const SheetPath& path, const std::string& value) {
  if (path.size() < 2) return cannot(path, "is a table", "Name a key in it behind a dot.");
  if (const auto found = sheet.find(path)) {
    if (found->value != nullptr) return replace_value(sheet, path, *found->value, value);
    return cannot(path, "is a table", "Name one of its keys behind another dot.");
  }
  if (sheet.has(path))
    return cannot(path, "is a table", "Name one of its keys behind another dot.");
  if (const auto branch = sheet.branch_towards(path)) {
    return set_inside(sheet, path, *branch, value);
  }
  if (auto refused = check_ways(sheet, path)) return refused;
  if (const TomlLine* const header = sheet.header_around(path)) {
    return set_under(sheet, path, *header, value);
  }
  const SheetPath table(path.begin(), path.end() - 1);
  const std::string text = value_text(value, field_at(path, sheet));
  return add_table_to_sheet(sheet, table, {{path.back(), value}});
}

std::string inline_table(const SheetLayout& sheet, const SheetPath& path, const SheetKeys& keys) {
  std::string text;
  for (const auto& [key, value] : keys) {
    SheetPath inner = path;
    inner.push_back(key);
    text += (text.empty() ? "" : ", ") + key_text(key) + " = " +
            value_text(value, field_at(inner, sheet));
  }
  return text.empty() ? "{}" : "{ " + text + " }";
}

bool append_line(SheetLayout& sheet, const TomlLine& behind, const std::string& line) {
  const std::size_t at = behind.span.end;
  const bool ends_line = at > 0 && sheet.text()[at - 1] == '\n';
  const std::string end = sheet.line_end();
  return sheet.replace({at, at}, ends_line ? line + end : end + line);
}

bool append_inside(SheetLayout& sheet, const TomlLayoutValue& holder, const std::string& text) {
  const bool is_table = holder.kind == Kind::Table;
  const std::size_t count = is_table ? holder.entries.size() : holder.items.size();
  if (count == 0) {
    const std::string room = is_table ? " " : "";
    const std::string_view brackets = is_table ? "{}" : "[]";
    return sheet.replace(holder.span, brackets[0] + room + text + room + brackets[1]);
  }
  const TomlSpan last = is_table ? holder.entries.back().value.span : holder.items.back().span;
  // Items that stand on lines of their own get another such line.
  const std::size_t line = sheet.text().rfind('\n', last.begin);
  const bool is_alone = !is_table && line != std::string::npos && line > holder.span.begin;
  const std::string_view before =
      is_alone ? std::string_view(sheet.text()).substr(line + 1, last.begin - line - 1) : "";
  const bool is_indent = is_alone && before.find_first_not_of(" \t") == std::string_view::npos;
  const std::string gap = is_indent ? "," + sheet.line_end() + std::string(before) : ", ";
  return sheet.replace({last.end, last.end}, gap + text);
}

}  // namespace tideover::build

// Tables and items: added behind their like, taken away with the comment above them.
#include <algorithm>

#include "base/text.hpp"
#include "build/sheet_editing.hpp"
#include "build/sheet_path.hpp"

namespace tideover::build {

using base::TomlLayoutValue;
using base::TomlLine;
using base::TomlSpan;

namespace {

Refused unless(bool is_done, const SheetPath& path) {
  if (is_done) return std::nullopt;
  return base::Problem{
      {}, "`" + show_path(path) + "` cannot be changed so", "Change it in the text."};
}

/// The line that ends before `at`, without its line end.
TomlSpan line_before(std::string_view text, std::size_t at) {
  std::size_t end = at;
  if (end > 0 && text[end - 1] == '\n') --end;
  if (end > 0 && text[end - 1] == '\r') --end;
  const std::size_t begin = end == 0 ? std::string_view::npos : text.rfind('\n', end - 1);
  return {begin == std::string_view::npos ? 0 : begin + 1, end};
}

bool is_blank(std::string_view line) {
  return line.find_first_not_of(" \t\r") == std::string_view::npos;
}

/// Up over the comment that stands directly above, to the beginning of its first line.
std::size_t begin_with_comment(std::string_view text, std::size_t begin) {
  while (begin > 0) {
    const TomlSpan above = line_before(text, begin);
    const std::string_view line = above.of(text);
    const std::size_t first = line.find_first_not_of(" \t");
    if (first == std::string_view::npos || line[first] != '#') break;
    begin = above.begin;
  }
  return begin;
}

std::size_t begin_with_blanks(std::string_view text, std::size_t begin) {
  while (begin > 0) {
    const TomlSpan above = line_before(text, begin);
    if (!is_blank(above.of(text))) break;
    begin = above.begin;
  }
  return begin;
}

std::size_t end_with_blanks(std::string_view text, std::size_t end) {
  while (end < text.size()) {
    const std::size_t next = std::min(text.find('\n', end), text.size() - 1) + 1;
    if (!is_blank(text.substr(end, next - end - (text[next - 1] == '\n' ? 1 : 0)))) break;
    end = next;
  }
  return end;
}

/// Lines `first` to `last`. A table goes with the comment above it and the room before that, so
/// that its neighbours stay as far apart as they were.
TomlSpan extent_of(const SheetLayout& sheet, std::size_t first, std::size_t last) {
  const TomlLine& line = sheet.lines()[first];
  TomlSpan span{line.span.begin, sheet.lines()[last].span.end};
  if (line.kind == TomlLine::Kind::Entry) return span;
  span.begin = begin_with_comment(sheet.text(), span.begin);
  const std::size_t before = begin_with_blanks(sheet.text(), span.begin);
  if (before == 0) {
    span.end = end_with_blanks(sheet.text(), span.end);
  } else {
    span.begin = before;
  }
  return span;
}

/// An entry or item inside brackets, with the comma that parted it from its neighbour.
Refused take_from_inside(SheetLayout& sheet, const SheetPath& path, const SheetPlace& place) {
  const TomlLayoutValue& holder = *place.within;
  const bool is_table = holder.kind == TomlLayoutValue::Kind::Table;
  std::vector<TomlSpan> spans;
  for (const auto& entry : holder.entries) {
    spans.push_back({entry.key.front().span.begin, entry.value.span.end});
  }
  for (const auto& item : holder.items) spans.push_back(item.span);
  const std::size_t k = place.number;
  if (spans.size() == 1) {
    // A comment behind the only item of a list goes with it.
    return unless(sheet.replace(holder.span, is_table ? "{}" : "[]"), path);
  }
  if (k == 0) return unless(sheet.replace({spans[0].begin, spans[1].begin}, ""), path);
  return unless(sheet.replace({spans[k - 1].end, spans[k].end}, ""), path);
}

/// Keys below one another, their `=` too.
std::string table_lines(const SheetLayout& sheet, const SheetPath& path, const SheetKeys& keys) {
  std::size_t width = 0;
  for (const auto& [key, value] : keys) width = std::max(width, key_text(key).size());
  std::string text;
  for (const auto& [key, value] : keys) {
    SheetPath inner = path;
    inner.push_back(key);
    std::string name = key_text(key);
    name.resize(width, ' ');
    text += name + " = " + value_text(value, field_at(inner, sheet)) + sheet.line_end();
  }
  return text;
}

/// A field is known only once the sheet says of what kind the part is.
Refused put_table(SheetLayout& sheet, const SheetPath& path, const std::string& header,
                  std::size_t behind, const SheetKeys& keys) {
  const std::string end = sheet.line_end();
  const std::string& text = sheet.text();
  std::string block = behind == 0 ? "" : end;
  if (behind > 0 && text[behind - 1] != '\n') block += end;
  block += header + end;
  const std::size_t body = behind + block.size();
  const auto kind = std::ranges::find(keys, "kind", &SheetKeys::value_type::first);
  const std::string kind_line =
      kind == keys.end() ? "" : "kind = " + value_text(kind->second, nullptr, "\"") + end;
  if (!sheet.replace({behind, behind}, block + kind_line)) return unless(false, path);
  const std::string lines = table_lines(sheet, path, keys);
  return unless(sheet.replace({body, body + kind_line.size()}, lines), path);
}

/// Behind the last line of the same sort, or of the sheet.
std::size_t end_of_sort(const SheetLayout& sheet, const SheetPath& sort) {
  const std::vector<std::size_t> like = sheet.lines_of(sort);
  if (!like.empty()) return sheet.lines()[like.back()].span.end;
  return sheet.text().size();
}

/// The header whose lines are tables of the sort, one a line, if they are written so.
const TomlLine* header_of_one_liners(const SheetLayout& sheet, const SheetPath& sort) {
  const auto place = sheet.find(sort);
  if (!place || place->value != nullptr) return nullptr;
  const TomlLine& last = sheet.last_of_body(*place->line);
  const bool is_so = last.kind == TomlLine::Kind::Entry &&
                     last.value.kind == TomlLayoutValue::Kind::Table && last.key.size() == 1;
  return is_so ? place->line : nullptr;
}

Refused check_new(const SheetLayout& sheet, const SheetPath& path) {
  if (!sheet.has(path)) return std::nullopt;
  return base::Problem{{}, "`" + show_path(path) + "` is there already", "Take another name."};
}

}  // namespace

base::Problem nothing_at(const SheetPath& path, const SheetLayout& sheet) {
  SheetPath above = path;
  std::string name = above.back();
  above.pop_back();
  while (!above.empty() && !sheet.has(above)) {
    name = above.back();
    above.pop_back();
  }
  const std::vector<std::string> names = sheet.names_under(above);
  const auto near = base::nearest_word(name, names);
  std::string remedy;
  if (near) {
    above.push_back(*near);
    remedy = "Did you mean `" + show_path(above) + "`?";
  } else if (!names.empty()) {
    remedy = "There is " + base::quoted_list(names, "and") + ".";
  }
  return {{}, "the sheet has no `" + show_path(path) + "`", remedy};
}

Refused take_from_sheet(SheetLayout& sheet, const SheetPath& path) {
  if (const auto place = sheet.find(path); place && place->within != nullptr) {
    return take_from_inside(sheet, path, *place);
  }
  std::vector<std::size_t> lines = sheet.lines_of(path);
  if (lines.empty()) return nothing_at(path, sheet);
  // From the end on, so that what stands before keeps its place.
  while (!lines.empty()) {
    const std::size_t last = lines.back();
    std::size_t first = last;
    lines.pop_back();
    while (!lines.empty() && lines.back() + 1 == first) {
      first = lines.back();
      lines.pop_back();
    }
    if (!sheet.replace(extent_of(sheet, first, last), "")) return unless(false, path);
  }
  return std::nullopt;
}

Refused add_table_to_sheet(SheetLayout& sheet, const SheetPath& path, const SheetKeys& keys) {
  if (auto refused = check_new(sheet, path)) return refused;
  if (const auto branch = sheet.branch_towards(path)) {
    if (branch->at.value->kind != TomlLayoutValue::Kind::Table || branch->rest.size() != 1) {
      return unless(false, path);
    }
    const std::string entry = key_text(path.back()) + " = " + inline_table(sheet, path, keys);
    return unless(append_inside(sheet, *branch->at.value, entry), path);
  }
  const SheetPath sort(path.begin(), path.end() - 1);
  if (const TomlLine* const header = header_of_one_liners(sheet, sort)) {
    const TomlLine& last = sheet.last_of_body(*header);
    const std::size_t width =
        sheet.text().find('=', last.key.back().span.end) - last.key.front().span.begin;
    std::string name = key_text(path.back());
    name.resize(std::max(width, name.size() + 1), ' ');
    return unless(append_line(sheet, last, name + "= " + inline_table(sheet, path, keys)), path);
  }
  const std::size_t behind = end_of_sort(sheet, {path[0]});
  return put_table(sheet, path, "[" + show_path(path) + "]", behind, keys);
}

Refused append_item_to_sheet(SheetLayout& sheet, const SheetPath& path, const SheetKeys& keys) {
  SheetPath item = path;
  const std::size_t count = sheet.count_items(path);
  item.push_back(std::to_string(count + 1));
  if (const auto place = sheet.find(path); place && place->value != nullptr) {
    if (place->value->kind != TomlLayoutValue::Kind::List) {
      return base::Problem{{}, "`" + show_path(path) + "` is no list", ""};
    }
    return unless(append_inside(sheet, *place->value, inline_table(sheet, item, keys)), path);
  }
  if (count == 0 && path[0] != "timelines") {
    return set_in_sheet(sheet, path, "[" + inline_table(sheet, item, keys) + "]");
  }
  if (count == 0 && sheet.find(path)) return unless(false, path);
  SheetPath last = path;
  if (count > 0) last.push_back(std::to_string(count));
  const bool has_like = !sheet.lines_of(last).empty();
  const std::size_t behind = end_of_sort(sheet, has_like ? last : SheetPath{path[0]});
  return put_table(sheet, item, "[[" + show_path(path) + "]]", behind, keys);
}

}  // namespace tideover::build

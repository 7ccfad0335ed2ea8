#include "build/sheet_path.hpp"

#include <algorithm>
#include <memory>
#include <variant>

#include <fmt/format.h>

#include "base/text.hpp"
#include "base/toml.hpp"
#include "build/build.hpp"
#include "build/sheet_words.hpp"
#include "part/kind.hpp"

namespace tideover::build {

namespace {

using part::Description;
using part::Field;

const Description* description_inside(const Field& field) {
  if (const auto* const record = std::get_if<part::RecordField>(&field.what)) return record->of;
  if (const auto* const list = std::get_if<part::RecordsField>(&field.what)) return list->of;
  return nullptr;
}

const Description* kind_of_part(const std::string& name, const SheetLayout& sheet) {
  const auto place = sheet.find({"parts", name, "kind"});
  if (!place || place->value == nullptr) return nullptr;
  const part::Kind* const kind = part::find_kind(base::text_of(*place->value, sheet.text()));
  return kind == nullptr ? nullptr : kind->description;
}

/// The description of the thing that `path` is inside, and how many words name that thing.
struct Thing {
  const Description* description = nullptr;
  std::size_t words = 0;
};

Thing thing_around(const SheetPath& path, const SheetLayout& sheet) {
  if (path.size() > 1 && path[0] == "needs") return {&Needs::describe(), 1};
  if (path.size() > 2 && path[0] == "leads") return {&part::Wire::describe(), 2};
  if (path.size() > 2 && path[0] == "parts") return {kind_of_part(path[1], sheet), 2};
  return {};
}

/// The only table inside that has `key`, as the words that lead to it; empty if none or several.
SheetPath only_way_to(const Description& description, const std::string& key) {
  SheetPath way;
  int found = 0;
  for (const Field& field : description.fields) {
    const auto* const record = std::get_if<part::RecordField>(&field.what);
    if (record == nullptr) continue;
    SheetPath inner{field.key};
    if (record->of->find(key) == nullptr) {
      const SheetPath deeper = only_way_to(*record->of, key);
      if (deeper.empty()) continue;
      inner.insert(inner.end(), deeper.begin(), deeper.end());
    }
    way = inner;
    ++found;
  }
  return found == 1 ? way : SheetPath{};
}

/// Puts in the words that may be left out: "pack.capacity" is in the pack's cell.
void complete(SheetPath& path, const SheetLayout& sheet) {
  const Thing thing = thing_around(path, sheet);
  if (thing.description == nullptr || path.size() <= thing.words) return;
  const std::string& key = path[thing.words];
  if (thing.description->find(key) != nullptr || sheet.has(path)) return;
  const SheetPath way = only_way_to(*thing.description, key);
  path.insert(path.begin() + static_cast<std::ptrdiff_t>(thing.words), way.begin(), way.end());
}

/// What can stand without quotes in a sheet: a number with digits, yes or no.
bool can_be_bare(const std::string& text) {
  if (text == "true" || text == "false") return true;
  const bool is_like_a_number = !text.empty() && text.find_first_of("0123456789") <= 1 &&
                                text.find_first_not_of("+-.0123456789eE_") == std::string::npos;
  const base::TomlReading reading = base::read_toml("x = " + (is_like_a_number ? text : "?"), "");
  const base::TomlNode* const node = reading.root.find("x");
  return node != nullptr && node->kind != base::TomlNode::Kind::Date;
}

/// Between double quotes, with escapes where TOML 1.0 wants them.
std::string quoted(const std::string& value) {
  std::string text = "\"";
  for (const char c : value) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      text += '\\';
      text += c;
    } else if (c == '\n') {
      text += "\\n";
    } else if (byte < 0x20 || byte == 0x7F) {
      text += fmt::format("\\u{:04X}", byte);
    } else {
      text += c;
    }
  }
  return text + "\"";
}

bool can_be_literal(const std::string& value) {
  return std::ranges::all_of(value, [](char c) {
    return c != '\'' && c != 0x7F && static_cast<unsigned char>(c) >= 0x20;
  });
}

}  // namespace

base::Result<SheetPath> read_sheet_path(const std::string& path, const SheetLayout& sheet) {
  const auto words = base::lay_out_key(path);
  if (!words) {
    return base::Problem{{},
                         "`" + path + "` is no path",
                         "Write names with dots between them, such as `parts.pack.series`."};
  }
  SheetPath read;
  for (const base::TomlWord& word : *words) read.push_back(word.name);
  const std::vector<std::string>& tables = sheet_keys();
  const bool is_whole = std::ranges::find(tables, read[0]) != tables.end();
  if (!is_whole && sheet.has({"parts", read[0]})) read.insert(read.begin(), "parts");
  complete(read, sheet);
  return read;
}

const Field* field_at(const SheetPath& path, const SheetLayout& sheet) {
  const Thing thing = thing_around(path, sheet);
  const Description* description = thing.description;
  const Field* field = nullptr;
  for (std::size_t k = thing.words; k < path.size(); ++k) {
    if (description == nullptr) return nullptr;
    field = description->find(path[k]);
    if (field == nullptr) return nullptr;
    description = description_inside(*field);
    // The next word is the number of an item.
    if (std::holds_alternative<part::RecordsField>(field->what)) ++k;
  }
  return field;
}

std::string key_text(const std::string& name) {
  const bool is_bare = !name.empty() && std::ranges::all_of(name, [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
           c == '-';
  });
  return is_bare ? name : quoted(name);
}

std::string show_path(const SheetPath& path) {
  std::string text;
  for (const std::string& word : path) text += (text.empty() ? "" : ".") + key_text(word);
  return text;
}

std::string value_text(const std::string& value, const Field* field, std::string_view before) {
  const bool is_marked = value.find_first_of("[{\"'") == 0;
  if (is_marked && base::lay_out_value(value)) return value;
  const bool counts = field != nullptr && (std::holds_alternative<part::CountField>(field->what) ||
                                           std::holds_alternative<part::FlagField>(field->what));
  const bool may_be_bare = counts || (field == nullptr && !before.starts_with('"'));
  if (may_be_bare && can_be_bare(value)) return value;
  const bool is_literal = before.starts_with('\'') && !before.starts_with("'''");
  if (is_literal && can_be_literal(value)) return "'" + value + "'";
  return quoted(value);
}

}  // namespace tideover::build

#include <algorithm>

#include "base/text.hpp"
#include "base/toml.hpp"

namespace tideover::base {

Place place_of(const TomlMark& mark, const TomlSource& source) {
  Place place;
  place.file = source.file;
  place.line = mark.line;
  place.column = mark.column;
  place.length = mark.length;
  const auto line = static_cast<std::size_t>(mark.line);
  if (line >= 1 && line <= source.lines.size()) place.excerpt = source.lines[line - 1];
  return place;
}

std::string in_words(TomlNode::Kind kind) {
  switch (kind) {
    case TomlNode::Kind::Table: return "a table";
    case TomlNode::Kind::Array: return "a list";
    case TomlNode::Kind::Text: return "text";
    case TomlNode::Kind::Integer: return "a whole number";
    case TomlNode::Kind::Real: return "a number";
    case TomlNode::Kind::Boolean: return "true or false";
    case TomlNode::Kind::Date: break;
  }
  return "a date or time";
}

const TomlNode* TomlNode::find(std::string_view key) const {
  for (const TomlEntry& entry : entries) {
    if (entry.key == key) return &entry.value;
  }
  return nullptr;
}

Place TomlNode::place() const { return source ? place_of(mark, *source) : Place{}; }

Place TomlNode::place_inside(int offset, int length) const {
  Place whole = place();
  const std::string_view line = whole.excerpt;
  const auto column = static_cast<std::size_t>(std::max(1, mark.column));
  const std::size_t quote = byte_of_code_point(line, column - 1);
  if (kind != Kind::Text || quote >= line.size()) return whole;
  const bool is_quote = line[quote] == '"' || line[quote] == '\'';
  const bool is_verbatim = is_quote && line.compare(quote + 1, text.size(), text) == 0 &&
                           quote + 1 + text.size() < line.size() &&
                           line[quote + 1 + text.size()] == line[quote];
  if (!is_verbatim) return whole;
  whole.column += 1 + offset;
  whole.length = std::max(1, length);
  return whole;
}

Place TomlEntry::key_place() const {
  return value.source ? place_of(key_mark, *value.source) : Place{};
}

}  // namespace tideover::base

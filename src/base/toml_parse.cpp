#include "base/toml_parse.hpp"

#include <algorithm>
#include <sstream>
#include <stdexcept>

#include "base/text.hpp"

// The parser's own checks become exceptions that are caught here: what a hostile text can reach in
// it must not end the program.
namespace tideover::base {
namespace {
struct ParserFault : std::runtime_error {
  using std::runtime_error::runtime_error;
};
[[noreturn]] void fail_parser() {
  throw ParserFault("the TOML parser met a state it has no name for");
}
}  // namespace
}  // namespace tideover::base

#define TOML_HEADER_ONLY 1
#define TOML_EXCEPTIONS 1
#define TOML_ENABLE_FORMATTERS 0
#define TOML_ASSERT(expr) ((expr) ? void() : ::tideover::base::fail_parser())
#include <toml++/impl/preprocessor.h>
#undef TOML_UNREACHABLE
#define TOML_UNREACHABLE ::tideover::base::fail_parser()
#include <toml++/toml.h>

namespace tideover::base {
namespace {

using Source = std::shared_ptr<const TomlSource>;

TomlMark mark_of(const toml::source_region& region, const TomlSource& source) {
  TomlMark mark{static_cast<int>(region.begin.line), static_cast<int>(region.begin.column), 1};
  const auto end_column = static_cast<int>(region.end.column);
  if (region.end.line == region.begin.line && end_column > mark.column) {
    mark.length = end_column - mark.column;
  } else if (mark.line >= 1 && static_cast<std::size_t>(mark.line) <= source.lines.size()) {
    const auto points =
        static_cast<int>(count_code_points(source.lines[static_cast<std::size_t>(mark.line) - 1]));
    mark.length = std::max(1, points - mark.column + 1);
  }
  return mark;
}

template <class Date>
std::string date_text(const Date& date) {
  std::ostringstream stream;
  stream.imbue(std::locale::classic());
  stream << date;
  return stream.str();
}

TomlNode convert(const toml::node& from, const Source& source);

std::vector<TomlEntry> convert_entries(const toml::table& table, const Source& source) {
  std::vector<TomlEntry> entries;
  entries.reserve(table.size());
  for (const auto& [key, value] : table) {
    entries.push_back(
        {std::string(key.str()), mark_of(key.source(), *source), convert(value, source)});
  }
  std::stable_sort(entries.begin(), entries.end(), [](const TomlEntry& a, const TomlEntry& b) {
    return std::pair(a.key_mark.line, a.key_mark.column) <
           std::pair(b.key_mark.line, b.key_mark.column);
  });
  return entries;
}

void convert_date(const toml::node& from, TomlNode& node) {
  node.kind = TomlNode::Kind::Date;
  if (const auto* date = from.as_date()) node.text = date_text(date->get());
  if (const auto* time = from.as_time()) node.text = date_text(time->get());
  if (const auto* both = from.as_date_time()) node.text = date_text(both->get());
}

TomlNode convert(const toml::node& from, const Source& source) {
  TomlNode node;
  node.source = source;
  node.mark = mark_of(from.source(), *source);
  if (const auto* table = from.as_table()) {
    node.entries = convert_entries(*table, source);
  } else if (const auto* array = from.as_array()) {
    node.kind = TomlNode::Kind::Array;
    for (const toml::node& item : *array) node.items.push_back(convert(item, source));
  } else if (const auto* text = from.as_string()) {
    node.kind = TomlNode::Kind::Text;
    node.text = text->get();
  } else if (const auto* integer = from.as_integer()) {
    node.kind = TomlNode::Kind::Integer;
    node.integer = integer->get();
  } else if (const auto* real = from.as_floating_point()) {
    node.kind = TomlNode::Kind::Real;
    node.real = real->get();
  } else if (const auto* boolean = from.as_boolean()) {
    node.kind = TomlNode::Kind::Boolean;
    node.boolean = boolean->get();
  } else {
    convert_date(from, node);
  }
  return node;
}

}  // namespace

std::variant<TomlNode, TomlFailure> parse_toml(std::string_view text, const Source& source) {
  try {
    return convert(toml::parse(text, std::string_view{}), source);
  } catch (const toml::parse_error& error) {
    const toml::source_position at = error.source().begin;
    return TomlFailure{static_cast<int>(at.line), static_cast<int>(at.column),
                       std::string(error.description())};
  } catch (const ParserFault& fault) {
    return TomlFailure{0, 0, fault.what()};
  }
}

}  // namespace tideover::base

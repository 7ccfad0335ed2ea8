#include "service/shelf_verb.hpp"

#include <fmt/format.h>

#include "base/text.hpp"
#include "base/toml.hpp"
#include "shelf/shelf.hpp"

namespace tideover::service {

namespace {

using base::TomlNode;

/// A value of a row on one line; lists and tables by what they hold.
std::string in_short(const TomlNode& node) {
  switch (node.kind) {
    case TomlNode::Kind::Text:
    case TomlNode::Kind::Date: return node.text;
    case TomlNode::Kind::Integer: return std::to_string(node.integer);
    case TomlNode::Kind::Real: return base::number_text(node.real);
    case TomlNode::Kind::Boolean: return node.boolean ? "true" : "false";
    case TomlNode::Kind::Array:
      return fmt::format("{} {}", node.items.size(), node.items.size() == 1 ? "entry" : "entries");
    case TomlNode::Kind::Table: break;
  }
  const TomlNode* const value = node.find("value");
  return value == nullptr ? "a table" : in_short(*value);
}

std::string text_of(const TomlNode& row, std::string_view key) {
  const TomlNode* const found = row.find(key);
  return found == nullptr ? std::string{} : found->text;
}

std::string values_of(const TomlNode& row) {
  std::string text;
  for (const base::TomlEntry& entry : row.entries) {
    if (entry.key == "source" || entry.key == "origin") continue;
    if (!text.empty()) text += ", ";
    text += entry.key + " " + in_short(entry.value);
  }
  return text;
}

Json row_json(const std::string& name, const TomlNode& row) {
  Json::Object values;
  for (const base::TomlEntry& entry : row.entries) {
    if (entry.key == "source" || entry.key == "origin") continue;
    values.emplace_back(entry.key, in_short(entry.value));
  }
  return Json::Object{{"name", name},
                      {"origin", text_of(row, "origin")},
                      {"source", text_of(row, "source")},
                      {"values", std::move(values)}};
}

Json::Object head() { return {{"tideover", version()}, {"verb", "shelf"}}; }

Reply all_lists(const shelf::Shelf& shelf) {
  Reply reply;
  Json::List lists;
  for (const std::string& list : shelf.lists()) {
    const std::vector<std::string> names = shelf.names(list);
    reply.lines.push_back({Tone::Strong, list});
    std::string in_a_row;
    Json::List rows;
    for (const std::string& name : names) {
      in_a_row += (in_a_row.empty() ? "" : ", ") + name;
      rows.emplace_back(name);
    }
    reply.lines.push_back({Tone::Plain, "    " + in_a_row});
    lists.push_back(Json::Object{{"list", list}, {"rows", std::move(rows)}});
  }
  reply.lines.push_back({});
  reply.lines.push_back({Tone::Quiet,
                         "A part takes a row with `from = \"shelf:NAME\"` and overrides what it "
                         "says itself. `tideover shelf LIST` tells values and sources."});
  Json::Object json = head();
  json.emplace_back("lists", std::move(lists));
  reply.json = std::move(json);
  return reply;
}

Reply one_list(const shelf::Shelf& shelf, const std::string& list) {
  Reply reply;
  Json::List rows;
  for (const std::string& name : shelf.names(list)) {
    const TomlNode* const row = shelf.find_row(list, name);
    if (row == nullptr) continue;
    reply.lines.push_back({Tone::Strong, "shelf:" + name});
    reply.lines.push_back({Tone::Plain, "    " + values_of(*row)});
    const std::string origin = text_of(*row, "origin");
    reply.lines.push_back({Tone::Quiet, "    " + (origin.empty() ? "typical" : origin) + ": " +
                                            text_of(*row, "source")});
    rows.push_back(row_json(name, *row));
  }
  Json::Object json = head();
  json.emplace_back("list", list);
  json.emplace_back("rows", std::move(rows));
  reply.json = std::move(json);
  return reply;
}

Reply shelf_rows(const Request& request, base::Progress&) {
  const shelf::Shelf& shelf = shelf::built_in_shelf();
  if (request.word.empty()) return all_lists(shelf);
  if (!shelf.names(request.word).empty()) return one_list(shelf, request.word);
  return no_such_word("list on the shelf", request.word, shelf.lists());
}

}  // namespace

Verb shelf_verb() {
  return {"shelf",
          "list the part data that comes with the program",
          "Lists the rows that parts and cells of a sheet may be taken from. With a LIST, such as "
          "fuse or cell, each row with its values, origin and source. They are classes of parts, "
          "not the one on your bench: measure what matters.",
          false,
          shelf_rows,
          "LIST",
          "one list, such as fuse"};
}

}  // namespace tideover::service

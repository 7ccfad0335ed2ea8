#include "build/sheet_reading.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace tideover::build {
namespace {

std::string quoted(std::string_view word) { return "`" + std::string(word) + "`"; }

bool is_name(std::string_view word) {
  constexpr std::string_view letters =
      "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789";
  if (word.empty() || word.size() > 40 || letters.find(word[0]) == std::string::npos) return false;
  return std::all_of(word.begin(), word.end(), [&](char c) {
    return letters.find(c) != std::string::npos || c == '_' || c == '-';
  });
}

std::string nearest_or_list(std::string_view word, const std::vector<std::string>& words,
                            const std::string& list_head) {
  if (const auto near = base::nearest_word(word, words))
    return "Did you mean " + quoted(*near) + "?";
  if (words.empty() || words.size() > 30) return "";
  return list_head + base::quoted_list(words, "and") + ".";
}

}  // namespace

std::vector<std::string> SheetReading::part_names() const {
  std::vector<std::string> names;
  for (const auto& [name, place] : part_places) names.push_back(name);
  return names;
}

const part::Part* SheetReading::find_part(std::string_view name, const base::Place& place) {
  if (const part::Part* part = build.find(name)) return part;
  if (part_places.find(name) == part_places.end() && fields.is_whole() && !fields.is_full()) {
    fields.tell_sense(place, "there is no part " + quoted(name),
                      nearest_or_list(name, part_names(), "The sheet has "));
  }
  return nullptr;
}

bool SheetReading::check_name(const base::TomlEntry& entry) {
  if (is_name(entry.key)) return true;
  fields.tell_form(
      entry.key_place(), quoted(entry.key) + " is no name",
      "A name has letters of ASCII, digits, `_` and `-`, begins with a letter or digit, "
      "and has at most 40 of them.");
  return false;
}

std::optional<WiredEnd> SheetReading::read_end(const base::TomlNode& node) {
  const std::string expected = "a terminal such as `pack.plus`";
  const std::string* text = fields.read_text(node, expected);
  if (text == nullptr) return std::nullopt;
  const std::size_t dot = text->find('.');
  if (dot == std::string::npos || dot == 0 || dot + 1 == text->size() ||
      text->find('.', dot + 1) != std::string::npos) {
    fields.tell_form(node.place(), "expected " + expected + ", found " + quoted(*text),
                     "Write the part's name, a dot, the terminal's name.");
    return std::nullopt;
  }
  WiredEnd end{{text->substr(0, dot), text->substr(dot + 1)}, node.place()};
  const auto letters = static_cast<int>(base::count_code_points(end.terminal.part));
  const part::Part* part = find_part(end.terminal.part, node.place_inside(0, letters));
  if (part == nullptr) return std::nullopt;
  std::vector<std::string> names;
  for (const part::Terminal& terminal : part->terminals()) names.push_back(terminal.name);
  if (std::find(names.begin(), names.end(), end.terminal.terminal) != names.end()) return end;
  const auto rest = static_cast<int>(base::count_code_points(end.terminal.terminal));
  fields.tell_sense(node.place_inside(letters + 1, rest),
                    quoted(end.terminal.part) + " has no terminal " + quoted(end.terminal.terminal),
                    nearest_or_list(end.terminal.terminal, names, "It has "));
  return std::nullopt;
}

void tell_contradictions(const std::vector<std::string>& sentences, const base::TomlNode& table,
                         part::FieldReader& fields) {
  for (const std::string& sentence : sentences) {
    const base::TomlNode* node = table.find(sentence.substr(0, sentence.find(':')));
    fields.tell_sense(node != nullptr ? node->place() : table.place(), sentence);
  }
}

}  // namespace tideover::build

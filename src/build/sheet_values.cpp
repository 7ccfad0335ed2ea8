#include "build/sheet_values.hpp"

#include <algorithm>
#include <array>

#include "build/field_values.hpp"
#include "build/sheet_words.hpp"
#include "part/load/load.hpp"
#include "part/switch/switch.hpp"

namespace tideover::build {

namespace {

using base::TomlEntry;
using base::TomlNode;
using Takes = SheetValue::Takes;

const TomlNode* inside(const TomlNode* table, const std::string& key) {
  return table == nullptr ? nullptr : table->find(key);
}

int line_of(const TomlNode* node, int otherwise) {
  return node == nullptr ? otherwise : node->mark.line;
}

/// The text or number of a node that no description knows.
SheetValue plain_text(const std::string& key, const std::string& path, const TomlNode* node,
                      std::string means, int line) {
  SheetValue value = plain_word(key, path, {}, node, std::move(means), line);
  value.takes = Takes::Text;
  return value;
}

/// `{ mains24 = "absent" }`: a value for each part named there.
void add_by_part(const std::string& key, const std::string& path, const TomlNode* table,
                 const std::vector<std::string>& words, const std::string& means,
                 std::vector<SheetValue>& all) {
  if (table == nullptr) return;
  for (const TomlEntry& entry : table->entries) {
    SheetValue value = plain_word(key + "." + entry.key, path + "." + entry.key, words,
                                  &entry.value, means, table->mark.line);
    if (words.empty()) value.takes = Takes::Text;
    all.push_back(std::move(value));
  }
}

std::vector<SheetValue> values_of_stretch(const TomlNode* table, const std::string& path,
                                          int line) {
  std::vector<SheetValue> all;
  const auto at = [&](const char* key) { return path + "." + key; };
  const TomlNode* const mains = inside(table, "mains");
  const std::string mains_means = "whether adapters have the mains, or have been unplugged";
  if (mains != nullptr && mains->kind == TomlNode::Kind::Table) {
    add_by_part("mains", at("mains"), mains, mains_words(), mains_means, all);
  } else {
    all.push_back(plain_word("mains", at("mains"), mains_words(), mains, mains_means, line));
  }
  all.push_back(plain_amount("lasts", at("lasts"), stretch_length(), inside(table, "lasts"),
                             "how long it lasts, at most where it also waits for something", line));
  all.push_back(plain_word("until", at("until"), until_words(), inside(table, "until"),
                           "what ends it", line));
  all.push_back(plain_amount("ambient", at("ambient"), stretch_ambient(), inside(table, "ambient"),
                             "what the air outside goes to", line));
  add_by_part("switches", at("switches"), inside(table, "switches"), {},
              "position of a switch, counted from 0", all);
  add_by_part("profiles", at("profiles"), inside(table, "profiles"), {},
              "the profile a load goes over to", all);
  return all;
}

/// "mains absent, until pack cut off".
std::string words_of(const std::vector<SheetValue>& values) {
  std::string words;
  for (const SheetValue& value : values) {
    if (value.text.empty()) continue;
    if (!words.empty()) words += ", ";
    if (value.key == "lasts") {
      words += "for " + value.text;
    } else {
      words += value.key + " " + value.text;
    }
  }
  std::ranges::replace(words, '.', ' ');
  return words;
}

SheetTimeline timeline_of(const std::string& name, const TomlNode* table) {
  SheetTimeline made;
  const std::string path = "timelines." + name;
  made.item.name = name;
  made.item.line = line_of(table, 0);
  SheetValue repeats = plain_text("repeats", path + ".repeats", inside(table, "repeats"),
                                  "how often it is carried out", made.item.line);
  repeats.takes = Takes::Count;
  if (repeats.text.empty()) repeats.text = "1";
  made.item.values.push_back(std::move(repeats));
  const TomlNode* const stretches = inside(table, "stretch");
  if (stretches == nullptr) return made;
  int number = 0;
  for (const TomlNode& item : stretches->items) {
    SheetItem stretch;
    stretch.line = item.mark.line;
    stretch.values =
        values_of_stretch(&item, path + ".stretch." + std::to_string(++number), stretch.line);
    stretch.name = std::to_string(number);
    stretch.means = words_of(stretch.values);
    made.stretches.push_back(std::move(stretch));
  }
  return made;
}

std::vector<SheetValue> start_of(const Build& build, const TomlNode* table) {
  std::vector<SheetValue> all;
  const int line = line_of(table, 0);
  SheetValue settled =
      plain_word("settled", "start.settled", {"true", "false"}, inside(table, "settled"),
                 "whether a run begins as after days on the mains", line);
  settled.takes = Takes::Flag;
  if (settled.text.empty()) settled.text = "true";
  all.push_back(std::move(settled));
  for (const auto& part : build.parts) {
    const TomlNode* const said = inside(table, part->name);
    if (part->description().name == "pack") {
      all.push_back(plain_amount(part->name + ".charge", "start." + part->name + ".charge",
                                 start_charge(), inside(said, "charge"), "charge a run begins with",
                                 line));
    }
    if (const TomlNode* const warmth = inside(said, "temperature")) {
      all.push_back(plain_amount(part->name + ".temperature",
                                 "start." + part->name + ".temperature", start_temperature(),
                                 warmth, "temperature a run begins with", line));
    }
  }
  return all;
}

}  // namespace

SheetValues sheet_values(Build& build, const TomlNode& root, const part::Stock& shelf) {
  SheetValues all;
  const FieldValues fields(build, shelf);
  const TomlNode* const head = root.find("sheet");
  all.head.push_back(plain_text("title", "sheet.title", inside(head, "title"),
                                "what the build is called", line_of(head, 1)));
  const TomlNode* const needs = root.find("needs");
  all.needs = fields.of(build.needs, {.table = needs, .path = "needs", .line = line_of(needs, 0)});
  const TomlNode* const parts = root.find("parts");
  for (const auto& part : build.parts) {
    const TomlNode* const table = inside(parts, part->name);
    const part::Description& kind = part->description();
    const int line = line_of(table, 0);
    all.parts.push_back(
        {part->name, kind.name, kind.means, part->note, line,
         fields.of(
             *part,
             {.table = table, .path = "parts." + part->name, .shelf = kind.name, .line = line})});
  }
  const TomlNode* const leads = root.find("leads");
  for (Lead& lead : build.leads) {
    const TomlNode* const table = inside(leads, lead.name);
    const int line = line_of(table, 0);
    all.leads.push_back(
        {lead.name, "lead", lead.wire.description().means, "", line,
         fields.of(lead.wire,
                   {.table = table, .path = "leads." + lead.name, .shelf = "wire", .line = line})});
  }
  const TomlNode* const timelines = root.find("timelines");
  for (const Timeline& timeline : build.timelines) {
    all.timelines.push_back(timeline_of(timeline.name, inside(timelines, timeline.name)));
  }
  all.start = start_of(build, root.find("start"));
  return all;
}

std::string_view in_words(SheetValue::Takes takes) {
  constexpr std::array<std::string_view, 8> words{"amount", "range", "count", "word",
                                                  "flag",   "text",  "part",  "row"};
  return words.at(static_cast<std::size_t>(takes));
}

std::string_view in_words(SheetValue::Stands stands) {
  constexpr std::array<std::string_view, 3> words{"sheet", "shelf", "default"};
  return words.at(static_cast<std::size_t>(stands));
}

}  // namespace tideover::build

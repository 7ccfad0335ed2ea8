#include <utility>
#include <variant>

#include "base/text.hpp"
#include "build/sheet_reading.hpp"
#include "part/kind.hpp"

namespace tideover::build {
namespace {

const part::Kind* read_kind(const base::TomlNode& table, SheetReading& reading) {
  const base::TomlNode* node = table.find("kind");
  if (node == nullptr) {
    reading.fields.tell_missing(table.place(), "kind",
                                "Say what the part is, such as `kind = \"load\"`.");
    return nullptr;
  }
  std::vector<std::string> words;
  for (const part::Kind& kind : part::kinds()) words.push_back(kind.description->name);
  const int index = reading.fields.read_word(*node, words);
  return index < 0 ? nullptr : &part::kinds()[static_cast<std::size_t>(index)];
}

/// Where a text is to name another part, there must be one of that name.
void check_references(const base::TomlNode& table, SheetReading& reading) {
  for (const base::TomlEntry& entry : table.entries) {
    const part::Part* part = reading.build.find(entry.key);
    if (part == nullptr) continue;
    for (const part::Field& field : part->description().fields) {
      const auto* text = std::get_if<part::TextField>(&field.what);
      if (text == nullptr || !text->names_a_part) continue;
      const base::TomlNode* named = entry.value.find(field.key);
      if (named == nullptr || named->text.empty()) continue;
      (void)reading.find_part(named->text, named->place());
    }
  }
}

/// One box holds the build.
void check_boxes(SheetReading& reading) {
  const part::Part* first = nullptr;
  for (const auto& part : reading.build.parts) {
    if (part->description().name != "box") continue;
    if (first != nullptr) {
      reading.fields.tell_sense(
          reading.part_places.at(part->name),
          "`" + part->name + "` is a second box beside `" + first->name + "`",
          "Keep one, and say `where = \"outside\"` of parts that stand outside it.");
    }
    first = first != nullptr ? first : part.get();
  }
}

/// Null if anything is wrong with it.
std::unique_ptr<part::Part> read_part(const base::TomlEntry& entry, SheetReading& reading) {
  if (!reading.fields.expect_table(entry.value, "a part")) return nullptr;
  const part::Kind* kind = read_kind(entry.value, reading);
  if (kind == nullptr) return nullptr;
  std::unique_ptr<part::Part> part = kind->make();
  part->name = entry.key;
  if (!reading.fields.read(entry.value, *part, kind->description->name, {"kind"})) return nullptr;
  if (!reading.fields.is_whole()) return part;
  const std::vector<std::string> contradictions = part->contradictions();
  tell_contradictions(contradictions, entry.value, reading.fields);
  return contradictions.empty() ? std::move(part) : nullptr;
}

}  // namespace

void read_parts(const base::TomlNode& table, SheetReading& reading) {
  if (!reading.fields.expect_table(table, "`parts`")) return;
  if (table.entries.size() > most_parts) {
    reading.fields.tell_form(table.place(), "more than " + std::to_string(most_parts) + " parts");
    return;
  }
  for (const base::TomlEntry& entry : table.entries) {
    const bool is_named = reading.check_name(entry);
    reading.part_places.emplace(entry.key, entry.key_place());
    std::unique_ptr<part::Part> part = read_part(entry, reading);
    if (part != nullptr && is_named) reading.build.parts.push_back(std::move(part));
  }
  check_references(table, reading);
  check_boxes(reading);
}

}  // namespace tideover::build

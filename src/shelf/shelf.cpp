#include "shelf/shelf.hpp"

#include <functional>
#include <memory>
#include <variant>

#include "base/text.hpp"
#include "part/kind.hpp"
#include "part/wire/wire.hpp"

namespace tideover::shelf {

using Kind = base::TomlNode::Kind;

namespace {

/// What a row of one list is read into.
struct RowType {
  std::shared_ptr<part::Part> part;  ///< owns the record
  part::Described* described = nullptr;
};

void find_records(const part::Description& description, part::Described& owner,
                  const std::shared_ptr<part::Part>& part, std::map<std::string, RowType>& types) {
  for (const part::Field& field : description.fields) {
    const auto* record = std::get_if<part::RecordField>(&field.what);
    if (record == nullptr) continue;
    part::Described& inner = record->record(owner);
    if (!record->shelf.empty()) types[record->shelf] = {part, &inner};
    find_records(inner.description(), inner, part, types);
  }
}

std::map<std::string, RowType> row_types() {
  std::map<std::string, RowType> types;
  for (const part::Kind& kind : part::kinds()) {
    const std::shared_ptr<part::Part> part = kind.make();
    types[kind.description->name] = {part, part.get()};
    find_records(*kind.description, *part, part, types);
  }
  return types;
}

}  // namespace

Shelf::Shelf(std::span<const ShelfFile> files) {
  for (const ShelfFile& file : files) read_file(file);
}

void Shelf::read_file(const ShelfFile& file) {
  base::TomlReading reading = base::read_toml(file.text, "shelf/" + std::string(file.name));
  problems_.insert(problems_.end(), reading.problems.begin(), reading.problems.end());
  const std::string list(file.name.substr(0, file.name.rfind('.')));
  for (const base::TomlEntry& row : reading.root.entries) take_row(list, row);
}

void Shelf::take_row(const std::string& list, const base::TomlEntry& row) {
  if (row.value.kind != Kind::Table) {
    problems_.push_back({row.key_place(), "a row of the shelf is a table",
                         "Write `[" + row.key + "]` with its values below."});
    return;
  }
  const base::TomlNode* source = row.value.find(part::source_key);
  if (source == nullptr || source->kind != Kind::Text || source->text.empty()) {
    problems_.push_back({row.key_place(), "the row `" + row.key + "` names no source",
                         "Write `source = \"...\"`, or `source = \"typical, from memory\"`."});
    return;
  }
  lists_[list].entries.push_back(row);
}

const base::TomlNode* Shelf::find_row(std::string_view list, std::string_view name) const {
  const auto at = lists_.find(list);
  return at == lists_.end() ? nullptr : at->second.find(name);
}

std::vector<std::string> Shelf::names(std::string_view list) const {
  std::vector<std::string> names;
  const auto at = lists_.find(list);
  if (at == lists_.end()) return names;
  for (const base::TomlEntry& row : at->second.entries) names.push_back(row.key);
  return names;
}

std::vector<std::string> Shelf::lists() const {
  std::vector<std::string> names;
  for (const auto& [name, rows] : lists_) names.push_back(name);
  return names;
}

const Shelf& built_in_shelf() {
  static const Shelf shelf(shelf_files());
  return shelf;
}

base::Problems check_rows(const Shelf& shelf) {
  part::Findings findings;
  part::FieldReader reader(shelf, findings, true);
  for (const std::string& list : shelf.lists()) {
    for (const std::string& name : shelf.names(list)) {
      const base::TomlNode& row = *shelf.find_row(list, name);
      // A fresh object a row: lists would otherwise grow from row to row.
      std::map<std::string, RowType> types = row_types();
      part::Wire wire;
      types["wire"] = {nullptr, &wire};
      const auto type = types.find(list);
      if (type == types.end()) {
        reader.tell_form(row.place(), "no part takes rows named `" + list + "`");
        continue;
      }
      reader.read_row(row, *type->second.described);
    }
  }
  base::Problems all = std::move(findings.form);
  all.insert(all.end(), findings.sense.begin(), findings.sense.end());
  return all;
}

}  // namespace tideover::shelf

#include "build/read_sheet.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

#include "base/file.hpp"
#include "base/toml.hpp"
#include "build/sheet_reading.hpp"
#include "build/sheet_words.hpp"

namespace tideover::build {
namespace {

using base::TomlEntry;
using base::TomlNode;

void read_head(const TomlNode& table, SheetReading& reading) {
  if (!reading.fields.expect_table(table, "`sheet`")) return;
  for (const TomlEntry& entry : table.entries) {
    if (entry.key != "title") {
      reading.fields.tell_unknown_key(entry, "[sheet]", {"title"});
    } else if (const auto* text = reading.fields.read_text(entry.value, "a title")) {
      reading.build.title = *text;
    }
  }
}

using ReadTable = void (*)(const TomlNode&, SheetReading&);

void read_needs(const TomlNode& table, SheetReading& reading) {
  reading.fields.read(table, reading.build.needs, "");
}

/// Parts come first, wherever they stand: all else names them.
void read_tables(const TomlNode& root, SheetReading& reading) {
  const std::vector<std::pair<const char*, ReadTable>> tables{
      {"sheet", read_head},  {"needs", read_needs}, {"parts", read_parts},
      {"leads", read_leads}, {"joins", read_joins}, {"timelines", read_timelines},
      {"start", read_start}};
  for (const auto& [key, read] : tables) {
    if (const TomlNode* table = root.find(key)) read(*table, reading);
  }
  for (const TomlEntry& entry : root.entries) {
    const std::vector<std::string>& keys = sheet_keys();
    if (std::find(keys.begin(), keys.end(), entry.key) == keys.end()) {
      reading.fields.tell_unknown_key(entry, "a build sheet", keys);
      reading.all_ties_sound = false;  // it may be the leads that are misspelt
    }
  }
  base::Place whole;
  whole.file = root.source->file;
  if (root.find("needs") == nullptr) {
    reading.fields.tell_missing(whole, "[needs]",
                                "Say what the supply is for, at least `outlast`.");
  }
  if (root.find("parts") == nullptr) {
    reading.fields.tell_missing(whole, "[parts]", "Write `[parts.name]` once a part.");
  }
}

struct Outcome {
  Build build;
  part::Findings findings;
};

Outcome read_whole(std::string_view text, const std::string& file_name, const part::Stock& shelf) {
  Outcome outcome;
  outcome.build.file = file_name;
  const base::TomlReading toml = base::read_toml(text, file_name);
  outcome.findings.form = toml.problems;
  part::FieldReader fields(shelf, outcome.findings, toml.is_whole());
  SheetReading reading{fields, outcome.build, {}, {}, true};
  read_tables(toml.root, reading);
  check_wiring(reading);
  return outcome;
}

base::Problems in_order(part::Findings findings) {
  base::Problems all = std::move(findings.form);
  all.insert(all.end(), findings.sense.begin(), findings.sense.end());
  std::stable_sort(all.begin(), all.end(), [](const base::Problem& a, const base::Problem& b) {
    return std::tie(a.place.line, a.place.column) < std::tie(b.place.line, b.place.column);
  });
  return all;
}

}  // namespace

base::Result<Build> read_sheet(std::string_view text, const std::string& file_name,
                               const part::Stock& shelf) {
  Outcome outcome = read_whole(text, file_name, shelf);
  base::Problems problems = in_order(std::move(outcome.findings));
  if (!problems.empty()) return problems;
  return std::move(outcome.build);
}

base::Result<Build> read_sheet_file(const std::filesystem::path& path, const part::Stock& shelf) {
  std::error_code ignored;
  const bool is_folder = std::filesystem::is_directory(path, ignored);
  const std::filesystem::path file = is_folder ? path / sheet_file_name : path;
  const auto text = base::read_file(file, base::largest_toml_bytes);
  if (!text) return text.problems();
  return read_sheet(text.value(), file.string(), shelf);
}

part::Findings check_sheet(std::string_view text, const std::string& file_name,
                           const part::Stock& shelf) {
  return read_whole(text, file_name, shelf).findings;
}

}  // namespace tideover::build

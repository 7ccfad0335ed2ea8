// The schema and the reader accept and refuse the same sheets, as far as a schema can tell: every
// field of every kind, right and wrong in each way, and every refused sheet of tests/refuse, judged
// by an independent validator of JSON Schema draft-07 (python3-jsonschema).

#include "build/schema.hpp"

#include <unistd.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>
#include <variant>
#include <vector>

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "base/toml.hpp"
#include "build/read_sheet.hpp"
#include "part/kind.hpp"
#include "part/wire/wire.hpp"
#include "quantity/text.hpp"
#include "shelf/shelf.hpp"
#include "support/places.hpp"

using namespace tideover;
namespace fs = std::filesystem;
using Json = nlohmann::json;

namespace {

const shelf::Shelf& test_shelf() {
  static const std::vector<shelf::ShelfFile> files{
      {"fuse.toml", "[slow-2a]\nsource = \"invented\"\nrated = \"2 A\"\n"},
      {"cell.toml", "[one]\nsource = \"invented\"\n"},
      {"wire.toml", "[hook-up]\nsource = \"invented\"\nsize = \"0.75 mm2\"\n"}};
  static const shelf::Shelf shelf(files);
  return shelf;
}

Json to_json(const base::TomlNode& node) {
  using Kind = base::TomlNode::Kind;
  if (node.kind == Kind::Integer) return node.integer;
  if (node.kind == Kind::Real) return node.real;
  if (node.kind == Kind::Boolean) return node.boolean;
  if (node.kind == Kind::Array) {
    Json list = Json::array();
    for (const auto& item : node.items) list.push_back(to_json(item));
    return list;
  }
  if (node.kind != Kind::Table) return node.text;
  Json table = Json::object();
  for (const auto& entry : node.entries) table[entry.key] = to_json(entry.value);
  return table;
}

/// "accept" or "refuse why", one a document.
std::vector<std::string> judge(const std::vector<Json>& documents) {
  const fs::path file =
      fs::temp_directory_path() / ("tideover_schema_" + std::to_string(::getpid()));
  std::ofstream(file) << Json{{"schema", Json::parse(build::sheet_schema(test_shelf()))},
                              {"documents", documents}};
  const fs::path script = test::source_dir() / "tests" / "support" / "judge_schema.py";
  const std::string command = "python3 '" + script.string() + "' '" + file.string() + "'";
  std::vector<std::string> verdicts;
  FILE* const pipe = ::popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::array<char, 1000> line{};
  while (std::fgets(line.data(), static_cast<int>(line.size()), pipe) != nullptr) {
    verdicts.emplace_back(line.data());
  }
  REQUIRE_MESSAGE(::pclose(pipe) == 0, "is python3-jsonschema installed?");
  fs::remove(file);
  REQUIRE(verdicts.size() == documents.size());
  return verdicts;
}

// --- sheets made from the descriptions
// -------------------------------------------------------------

std::string sample_table(const part::Description& description);

/// A value the field takes, as TOML on one line.
std::string sample(const part::Field& field) {
  if (const auto* amount = std::get_if<part::AmountField>(&field.what)) {
    return '"' + std::string(quantity::example_of(part::measure_of_field(*amount))) + '"';
  }
  if (const auto* count = std::get_if<part::CountField>(&field.what)) {
    return std::to_string(count->lowest);
  }
  if (const auto* choice = std::get_if<part::ChoiceField>(&field.what)) {
    return '"' + std::string(choice->words.back()) + '"';
  }
  if (std::holds_alternative<part::FlagField>(field.what)) return "true";
  if (std::holds_alternative<part::TextField>(field.what)) return "\"a note\"";
  if (const auto* record = std::get_if<part::RecordField>(&field.what)) {
    return sample_table(*record->of);
  }
  const auto& records = std::get<part::RecordsField>(field.what);
  std::string list = "[";
  for (std::size_t i = 0; i < std::max<std::size_t>(1, records.least); ++i) {
    list += sample_table(*records.of) + ", ";
  }
  return list + "]";
}

std::string sample_table(const part::Description& description) {
  std::string table = "{ ";
  for (const part::Field& field : description.fields) {
    if (!field.is_required) continue;
    table += (table.size() > 2 ? ", " : "") + field.key + " = " + sample(field);
  }
  return table + " }";
}

/// Values of all sorts, right for some fields and wrong for most.
std::vector<std::string> values_for(const part::Field& field) {
  std::vector<std::string> values{sample(field),
                                  "12",
                                  "1.5",
                                  "true",
                                  "\"earth\"",
                                  "\"\"",
                                  "[]",
                                  "{}",
                                  "[1]",
                                  "{ value = " + sample(field) + " }",
                                  "{ value = \"12 V\", origin = \"measured\", source = \"me\" }",
                                  "{ value = \"12 V\", origin = \"guessed\" }",
                                  "{ value = \"12 V\", tolerance = \"5 %\" }",
                                  "\"shelf:one\"",
                                  "\"shelf:none\"",
                                  "{ from = \"shelf:one\" }",
                                  "\"12\"",
                                  "\"12 V\"",
                                  "\"650 mA\"",
                                  "\"5 K\"",
                                  "\"5 degC\"",
                                  "\"80 %\"",
                                  "\"80 % +/- 5 %\"",
                                  "\"4 h\"",
                                  "\"20 V to 28 V\"",
                                  "\"5 parsec\"",
                                  "\"24,1 V\"",
                                  "\"1 h 30 min\"",
                                  "\"20 AWG\"",
                                  "\"2 +/- 0.1\""};
  if (const auto* count = std::get_if<part::CountField>(&field.what)) {
    values.push_back(std::to_string(count->lowest - 1));
    values.push_back(std::to_string(count->highest));
    values.push_back(std::to_string(count->highest + 1));
  }
  if (const auto* records = std::get_if<part::RecordsField>(&field.what)) {
    const std::string item = sample_table(*records->of);
    std::string list = "[";
    for (std::size_t i = 0; i <= records->most; ++i) list += item + ",";
    values.push_back(list + "]");
    values.push_back("[" + item + ", { }]");
    values.push_back("[{ nonsense = 1 }]");
  }
  return values;
}

const std::string head = "[needs]\noutlast = \"4 h\"\n";

/// The table with its required fields but `left_out`, and `line` below.
std::string table_text(const std::string& header, const part::Description& description,
                       const std::string& left_out, const std::string& line) {
  std::string text = header;
  for (const part::Field& field : description.fields) {
    if (field.is_required && field.key != left_out)
      text += field.key + " = " + sample(field) + "\n";
  }
  return text + line + "\n";
}

void add_variants(const std::string& before, const std::string& header,
                  const part::Description& description, std::vector<std::string>& sheets) {
  sheets.push_back(before + table_text(header, description, "", ""));
  sheets.push_back(before + table_text(header, description, "", "nonsense = 1"));
  for (const part::Field& field : description.fields) {
    sheets.push_back(before + table_text(header, description, field.key, ""));
    for (const std::string& value : values_for(field)) {
      sheets.push_back(before +
                       table_text(header, description, field.key, field.key + " = " + value));
    }
  }
}

std::vector<std::string> sheets_of_all_kinds() {
  std::vector<std::string> sheets;
  for (const part::Kind& kind : part::kinds()) {
    const std::string header = "[parts.x]\nkind = \"" + kind.description->name + "\"\n";
    add_variants(head, header, *kind.description, sheets);
  }
  const std::string parts = "[parts.x]\nkind = \"box\"\n";
  const std::string ends = "between = [\"x.a\", \"x.b\"]\n";
  add_variants(head + parts, "[leads.w]\n" + ends, part::Wire::describe(), sheets);
  add_variants(parts, "[needs]\n", build::Needs::describe(), sheets);
  sheets.push_back(head + "[parts.x]\nkind = \"fuse\"\nfrom = \"shelf:slow-2a\"\n");
  sheets.push_back(head + "[parts.x]\nkind = \"fuse\"\nfrom = \"shelf:slow-3a\"\n");
  sheets.push_back(head + "[parts.x]\nkind = \"box\"\nfrom = \"shelf:slow-2a\"\n");
  return sheets;
}

std::vector<std::string> sheets_of_own_tables() {
  std::vector<std::string> sheets{"", head, head + "[parts]\n", head + "[part]\n"};
  const std::string base = head + "[parts.x]\nkind = \"box\"\n";
  const std::vector<std::string> tails{
      "",
      "[sheet]\ntitle = \"t\"\n",
      "[sheet]\ntitle = 1\n",
      "[sheet]\nname = \"t\"\n",
      "[parts.\"a b\"]\nkind = \"box\"\n",
      "[parts.y]\n",
      "[parts.y]\nkind = \"crate\"\n",
      "[joins.j]\nterminals = [\"a.b\", \"c.d\"]\n",
      "[joins.j]\nterminals = [\"a.b\"]\n",
      "[joins.j]\nterminals = [\"a.b\", \"c\"]\n",
      "[joins.j]\nterminals = [\"a.b\", 1]\n",
      "[joins.j]\n",
      "[joins.j]\nof = [\"a.b\", \"c.d\"]\n",
      "[joins]\nj = 1\n",
      "[timelines.t]\n",
      "[timelines.t]\nrepeats = 2\n",
      "[timelines.t]\nstretch = []\n",
      "[[timelines.t.stretch]]\nlasts = \"1 h\"\n",
      "[[timelines.t.stretch]]\nlasts = 1\n",
      "[[timelines.t.stretch]]\nmains = \"absent\"\n",
      "[[timelines.t.stretch]]\nmains = \"absent\"\nuntil = \"pack full\"\n",
      "[[timelines.t.stretch]]\nmains = \"off\"\nuntil = \"pack full\"\n",
      "[[timelines.t.stretch]]\nmains = { m = \"unplugged\" }\nlasts = \"1 min\"\n",
      "[[timelines.t.stretch]]\nmains = { m = \"gone\" }\nlasts = \"1 min\"\n",
      "[[timelines.t.stretch]]\nuntil = \"pack empty\"\n",
      "[[timelines.t.stretch]]\nlasts = \"1 h\"\nswitches = { s = 1 }\n",
      "[[timelines.t.stretch]]\nlasts = \"1 h\"\nswitches = { s = -1 }\n",
      "[[timelines.t.stretch]]\nlasts = \"1 h\"\nswitches = { s = \"on\" }\n",
      "[[timelines.t.stretch]]\nlasts = \"1 h\"\nprofiles = { l = \"busy\" }\n",
      "[[timelines.t.stretch]]\nlasts = \"1 h\"\nprofiles = { l = 1 }\n",
      "[[timelines.t.stretch]]\nlasts = \"1 h\"\nambient = \"5 degC\"\n",
      "[[timelines.t.stretch]]\nlasts = \"1 h\"\nambient = \"5 K\"\n",
      "[[timelines.t.stretch]]\nlasts = \"1 h\"\nmain = \"absent\"\n",
      "[timelines.t]\nrepeats = 0\n[[timelines.t.stretch]]\nlasts = \"1 h\"\n",
      "[start]\nsettled = false\n",
      "[start]\nsettled = \"no\"\n",
      "[start]\nx = { charge = \"80 %\", temperature = \"10 degC\" }\n",
      "[start]\nx = { charge = \"80 Ah\" }\n",
      "[start]\nx = { volts = \"80 V\" }\n",
      "[start]\nx = 1\n",
      "[leads.w]\nsize = \"1 mm2\"\nlength = \"1 m\"\n",
      "[leads.w]\nbetween = [\"a.b\"]\nsize = \"1 mm2\"\nlength = \"1 m\"\n",
      "[leads.w]\nbetween = [\"a.b\", \"c.d\"]\nfrom = \"shelf:hook-up\"\n"};
  for (const std::string& tail : tails) sheets.push_back(base + tail);
  return sheets;
}

/// What the header of the schema says it cannot tell, though it is in the text of a value.
bool is_beyond_a_pattern(const base::Problem& problem) {
  for (const char* text : {"the range runs downwards", "the units of a time must fall",
                           "a wire gauge is a whole number", "the number is too"}) {
    if (problem.text.find(text) != std::string::npos) return true;
  }
  return false;
}

void compare(const std::vector<std::string>& sheets) {
  std::vector<Json> documents;
  for (const std::string& sheet : sheets) {
    const base::TomlReading reading = base::read_toml(sheet, "sheet.toml");
    CAPTURE(sheet);
    REQUIRE_MESSAGE(reading.is_whole(), base::show(reading.problems));
    documents.push_back(to_json(reading.root));
  }
  const std::vector<std::string> verdicts = judge(documents);
  int accepted = 0;
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    base::Problems form = build::check_sheet(sheets[i], "sheet.toml", test_shelf()).form;
    std::erase_if(form, is_beyond_a_pattern);
    const bool is_accepted = verdicts[i] == "accept\n";
    accepted += is_accepted ? 1 : 0;
    CAPTURE(sheets[i]);
    CAPTURE(verdicts[i]);
    CAPTURE(base::show(form));
    CHECK(is_accepted == form.empty());
  }
  MESSAGE(sheets.size(), " sheets, ", accepted, " accepted");
  CHECK(accepted > 0);
  CHECK(accepted < static_cast<int>(sheets.size()));
}

}  // namespace

TEST_CASE("given every field of every kind, right and wrong, then schema and reader agree") {
  compare(sheets_of_all_kinds());
}

TEST_CASE("given the sheet's own tables, right and wrong, then schema and reader agree") {
  compare(sheets_of_own_tables());
}

TEST_CASE("given the sheets that are refused, then schema and reader agree on their form") {
  std::vector<std::string> sheets;
  for (const auto& entry : fs::directory_iterator(test::source_dir() / "tests" / "refuse")) {
    if (!entry.is_directory()) continue;
    const auto text = base::read_file(entry.path() / "sheet.toml", base::largest_toml_bytes);
    if (base::read_toml(text.value(), "").is_whole()) sheets.push_back(text.value());
  }
  compare(sheets);
}

TEST_CASE("definitions of the schema have names that a reference can spell") {
  const Json schema = Json::parse(build::sheet_schema(test_shelf()));
  REQUIRE_FALSE(schema.at("definitions").empty());
  for (const auto& [name, definition] : schema.at("definitions").items()) {
    CAPTURE(name);
    CHECK(name.find_first_of(" ()[]{}/#%") == std::string::npos);
  }
}

TEST_CASE("given the program's own shelf, then the schema is valid JSON and names its rows") {
  const Json schema = Json::parse(build::sheet_schema(shelf::built_in_shelf()));
  CHECK(schema["$schema"] == "http://json-schema.org/draft-07/schema#");
  CHECK(schema["definitions"].contains("load"));
  CHECK(schema.dump().find("shelf:") != std::string::npos);
}

#include "support/sheet_text.hpp"

#include <doctest/doctest.h>

#include "build/read_sheet.hpp"
#include "shelf/shelf.hpp"

namespace tideover::test {

namespace {

bool is_part(const std::string& table) {
  return table != "needs" && !table.starts_with("leads.") && !table.starts_with("joins.");
}

}  // namespace

std::string sheet_text(const Lines& lines) {
  std::map<std::string, std::string> tables;
  for (const auto& [path, value] : lines) {
    if (value.empty()) continue;
    const std::size_t dot = path.rfind('.');
    tables[path.substr(0, dot)] += path.substr(dot + 1) + " = " + value + "\n";
  }
  std::string text;
  for (const auto& [table, entries] : tables) {
    text += "[" + (is_part(table) ? "parts." + table : table) + "]\n" + entries;
  }
  return text;
}

void add_lead(Lines& lines, const std::string& name, const std::string& from, const std::string& to,
              const std::string& length) {
  const std::string lead = "leads." + name;
  lines[lead + ".between"] = "['" + from + "', '" + to + "']";
  lines[lead + ".size"] = "'0.75 mm2'";
  lines[lead + ".length"] = length;
}

build::Build read_or_fail(const std::string& text, const std::string& file_name) {
  auto read = build::read_sheet(text, file_name, shelf::built_in_shelf());
  if (!read) {
    MESSAGE(base::show(read.problems()));
  }
  REQUIRE(read);
  return std::move(read).value();
}

}  // namespace tideover::test

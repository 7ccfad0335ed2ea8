// `values`: every value of a sheet, its place, and what may stand there.
#include <algorithm>
#include <filesystem>
#include <map>
#include <set>

#include <doctest/doctest.h>

#include "base/file.hpp"
#include "base/toml.hpp"
#include "build/parameter.hpp"
#include "build/read_sheet.hpp"
#include "build/sheet_values.hpp"
#include "service/verb.hpp"
#include "shelf/shelf.hpp"

using namespace tideover;
using build::SheetValue;
namespace fs = std::filesystem;

namespace {

const std::vector<std::string> examples{"tide-hut", "frost-watch", "tower-clock", "weir-alarm"};

fs::path folder_of(const std::string& example) {
  return fs::path(TIDEOVER_SOURCE_DIR) / "examples" / example;
}

struct Read {
  std::string text;
  build::Build build;
  build::SheetValues values;
};

Read read(const std::string& example) {
  Read found;
  found.text = base::read_file(folder_of(example) / "sheet.toml", 1U << 20U).value();
  found.build = build::read_sheet(found.text, "sheet.toml", shelf::built_in_shelf()).value().copy();
  const auto toml = base::read_toml(found.text, "sheet.toml");
  found.values = build::sheet_values(found.build, toml.root, shelf::built_in_shelf());
  return found;
}

std::map<std::string, SheetValue> by_path(const build::SheetValues& values) {
  std::map<std::string, SheetValue> all;
  for (const SheetValue& value : values.needs) all.emplace(value.path, value);
  for (const auto* items : {&values.parts, &values.leads}) {
    for (const build::SheetItem& item : *items) {
      for (const SheetValue& value : item.values) all.emplace(value.path, value);
    }
  }
  for (const build::SheetTimeline& timeline : values.timelines) {
    for (const build::SheetItem& stretch : timeline.stretches) {
      for (const SheetValue& value : stretch.values) all.emplace(value.path, value);
    }
  }
  return all;
}

service::Reply ask(const std::string& example, std::vector<std::string> set = {}) {
  base::NoProgress nobody;
  return service::answer({.verb = "values", .folder = folder_of(example), .set = std::move(set)},
                         nobody);
}

}  // namespace

TEST_CASE("every amount of every example is told, under its path in the sheet") {
  for (const std::string& example : examples) {
    CAPTURE(example);
    Read found = read(example);
    const auto all = by_path(found.values);
    for (const build::Parameter& parameter : build::parameters_of(found.build)) {
      CAPTURE(parameter.path);
      const bool is_part =
          !parameter.path.starts_with("leads.") && !parameter.path.starts_with("needs.");
      const auto at = all.find((is_part ? "parts." : "") + parameter.path);
      REQUIRE(at != all.end());
      CHECK((at->second.stands == SheetValue::Stands::Default) == !parameter.amount->given);
      CHECK_FALSE(at->second.means.empty());
    }
  }
}

TEST_CASE("a value is told as it stands in the sheet, with the line it stands on") {
  const Read found = read("tide-hut");
  const auto all = by_path(found.values);
  std::vector<std::string> lines(1);
  for (const char c : found.text) {
    if (c == '\n') {
      lines.emplace_back();
    } else {
      lines.back() += c;
    }
  }
  int written = 0;
  for (const auto& [path, value] : all) {
    if (value.stands != SheetValue::Stands::Sheet) continue;
    CAPTURE(path);
    ++written;
    REQUIRE(value.line >= 1);
    CHECK(lines[static_cast<std::size_t>(value.line) - 1].find(value.text) != std::string::npos);
  }
  // Each lead of this sheet states its size, length and colour.
  CHECK(written > 3 * static_cast<int>(found.build.leads.size()));

  const SheetValue& capacity = all.at("parts.pack.cell.capacity");
  CHECK(capacity.text == "3.92 Ah +/- 1.5 %");
  CHECK(capacity.unit == "Ah");
  CHECK(capacity.tolerance == "+/- 1.5 %");
  CHECK(capacity.origin == "measured");
  CHECK(capacity.choices.texts.at(capacity.choices.at) == capacity.text);
  CHECK(all.at("parts.mains24.rated").stands == SheetValue::Stands::Shelf);
  CHECK(all.at("parts.mains24.from").takes == SheetValue::Takes::Row);
  CHECK(all.at("parts.board.under_voltage_released_by").words.size() > 1);
  CHECK(all.at("timelines.storm.stretch.2.until").text == "pack cut off");
}

TEST_CASE("what is offered for a slider can be set, one by one") {
  Read found = read("weir-alarm");
  int tried = 0;
  for (const build::SheetItem& item : found.values.parts) {
    for (const SheetValue& value : item.values) {
      if (value.takes != SheetValue::Takes::Amount || value.choices.texts.empty()) continue;
      for (const std::string& text : {value.choices.texts.front(), value.choices.texts.back()}) {
        build::Build twin = found.build.copy();
        const std::string path = value.path.substr(std::string("parts.").size());
        const auto problems = build::set_value(twin, path + "=" + text, shelf::built_in_shelf());
        ++tried;
        // Only another value of the same part may speak against it.
        for (const base::Problem& problem : problems) {
          CAPTURE(path + "=" + text);
          CHECK(problem.text.starts_with("`" + item.name + "`"));
        }
      }
    }
  }
  CHECK(tried > 50);
}

TEST_CASE("values that were set for this call are told as set") {
  const auto reply = ask("tide-hut", {"pack.capacity=3 Ah"});
  REQUIRE(reply.status == service::Status::Met);
  const std::string json = service::write_json(reply.json, service::Layout::OneLine);
  CHECK(json.find("\"path\":\"parts.pack.cell.capacity\",\"text\":\"3 Ah\"") != std::string::npos);
  const bool is_told = std::ranges::any_of(reply.lines, [](const service::Line& line) {
    return line.words.find("cell.capacity = 3 Ah") != std::string::npos;
  });
  CHECK(is_told);
}

TEST_CASE("a lead is offered the sizes that wire is made in") {
  const auto all = by_path(read("tide-hut").values);
  const auto& texts = all.at("leads.pack_plus.size").choices.texts;
  CHECK(std::ranges::find(texts, "2.5 mm2") != texts.end());
  CHECK(std::ranges::find(texts, "1.6 mm2") == texts.end());
  CHECK(all.at("leads.tap_1.size").choices.texts.size() > 10);
}

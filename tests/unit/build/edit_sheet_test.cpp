#include "build/edit_sheet.hpp"

#include <array>
#include <fstream>
#include <sstream>

#include <doctest/doctest.h>

#include "base/toml.hpp"
#include "build/sheet_layout.hpp"
#include "build/sheet_path.hpp"
#include "support/places.hpp"

using namespace tideover;
using build::Edit;

namespace {

std::string sheet_of(const std::string& example) {
  std::ifstream stream(test::examples_dir() / example / "sheet.toml", std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

std::string with_wide_line_ends(const std::string& text) {
  std::string wide;
  for (const char c : text) wide += c == '\n' ? "\r\n" : std::string(1, c);
  return wide;
}

std::string edited(const std::string& text, const std::vector<Edit>& edits) {
  const auto changed = build::edit_sheet(text, edits, "sheet.toml");
  REQUIRE(changed);
  return changed.value();
}

std::string refused(const std::string& text, const Edit& edit) {
  const auto changed = build::edit_sheet(text, std::array{edit}, "sheet.toml");
  REQUIRE_FALSE(changed);
  return changed.problems().front().text;
}

constexpr std::array examples{"tide-hut", "tower-clock", "frost-watch", "weir-alarm"};

}  // namespace

TEST_CASE("a value set anew and set back leaves every byte of the sheet as it was") {
  for (const char* const example : examples) {
    for (const std::string& text : {sheet_of(example), with_wide_line_ends(sheet_of(example))}) {
      const auto sheet = build::SheetLayout::of(text);
      REQUIRE(sheet);
      const auto leaves = sheet->leaves();
      CHECK(leaves.size() > 50);
      for (std::size_t k = 0; k < leaves.size(); k += 3) {
        const std::string path = build::show_path(leaves[k].path);
        const std::string before(sheet->bytes(leaves[k].value->span));
        const bool is_bare = leaves[k].value->kind == base::TomlLayoutValue::Kind::Bare;
        const std::string anew = is_bare ? "77" : "\"123 \xC2\xB5m\"";
        const std::string other =
            edited(text, {{.deed = Edit::Deed::Set, .path = path, .value = anew}});
        const auto span = leaves[k].value->span;
        CHECK(other == text.substr(0, span.begin) + anew + text.substr(span.end));
        CHECK(edited(other, {{.deed = Edit::Deed::Set, .path = path, .value = before}}) == text);
      }
    }
  }
}

TEST_CASE("a part added and removed again leaves every byte as it was") {
  for (const char* const example : examples) {
    const std::string text = sheet_of(example);
    CHECK(edited(text, {{.deed = Edit::Deed::Add,
                         .path = "parts.spare",
                         .keys = {{"kind", "fan"}, {"note", "5"}}},
                        {.deed = Edit::Deed::Remove, .path = "parts.spare"}}) == text);
  }
}

TEST_CASE("a part renamed and named back leaves every byte as it was") {
  const std::string text = sheet_of("tide-hut");
  const Edit there{.deed = Edit::Deed::Rename, .path = "parts.returns", .to = "common"};
  const Edit back{.deed = Edit::Deed::Rename, .path = "parts.common", .to = "returns"};
  CHECK(edited(text, {there}).find("returns.w") == std::string::npos);
  CHECK(edited(text, {there, back}) == text);
}

TEST_CASE("a value of a pack's cell is found without naming the cell") {
  const std::string text = sheet_of("tide-hut");
  const std::string changed =
      edited(text, {{.deed = Edit::Deed::Set, .path = "pack.capacity", .value = "3 Ah"}});
  CHECK(changed.find("capacity = { value = \"3 Ah\", origin = \"measured\"") != std::string::npos);
}

TEST_CASE("a row of the shelf makes room for a value of its own") {
  const std::string text = "[parts.pack]\nkind = \"pack\"\ncell = \"shelf:a\"  # bought\n";
  CHECK(edited(text, {{.deed = Edit::Deed::Set, .path = "pack.cell.capacity", .value = "3 Ah"}}) ==
        "[parts.pack]\nkind = \"pack\"\ncell = { from = \"shelf:a\", capacity = \"3 Ah\" }  # "
        "bought\n");
}

TEST_CASE("paths that lead nowhere are refused with what is there") {
  const std::string text = sheet_of("tide-hut");
  using Deed = Edit::Deed;
  CHECK(refused(text, {.deed = Deed::Set, .path = "..", .value = "1"}) == "`..` is no path");
  CHECK(refused(text, {.deed = Deed::Set, .path = "parts.nix.rated", .value = "1 A"}) ==
        "the sheet has no `parts.nix`");
  CHECK(refused(text, {.deed = Deed::Remove, .path = "parts.nix"}) ==
        "the sheet has no `parts.nix`");
  CHECK(refused(text, {.deed = Deed::Add, .path = "parts.sea"}) == "`parts.sea` is there already");
}

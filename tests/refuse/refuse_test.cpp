// Sheets that must be refused, each with the exact message. A case is a folder named for its fault:
// sheet.toml and expected.txt. With TIDEOVER_RENEW_EXPECTED=1 in the environment the expected texts
// are written anew; read the difference before you keep it.

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <set>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "base/file.hpp"
#include "build/read_sheet.hpp"
#include "shelf/shelf.hpp"
#include "support/places.hpp"

using namespace tideover;
namespace fs = std::filesystem;

namespace {

fs::path refuse_dir() { return test::source_dir() / "tests" / "refuse"; }

std::vector<fs::path> cases() {
  std::vector<fs::path> all;
  for (const auto& entry : fs::directory_iterator(refuse_dir())) {
    if (entry.is_directory()) all.push_back(entry.path());
  }
  std::sort(all.begin(), all.end());
  return all;
}

/// A shelf of the test's own, so that the program's may change.
const shelf::Shelf& test_shelf() {
  static const std::vector<shelf::ShelfFile> files{
      {"fuse.toml", "[slow-2a]\nsource = \"invented\"\nrated = \"2 A\"\n"},
      {"wire.toml", "[hook-up]\nsource = \"invented\"\nsize = \"0.75 mm2\"\n"}};
  static const shelf::Shelf shelf(files);
  return shelf;
}

std::string message_of(std::string_view text) {
  const auto read = build::read_sheet(text, "sheet.toml", test_shelf());
  return read ? "read without a problem\n" : base::show(read.problems());
}

std::string contents(const fs::path& path) {
  return base::read_file(path, base::largest_toml_bytes).value();
}

bool is_renewal() {
  const char* const asked = std::getenv("TIDEOVER_RENEW_EXPECTED");
  return asked != nullptr && std::string_view(asked) == "1";
}

}  // namespace

TEST_CASE("given a sheet with a fault, when it is read, then the message is this one") {
  REQUIRE(cases().size() >= 45);
  for (const fs::path& folder : cases()) {
    CAPTURE(folder.filename().string());
    const std::string message = message_of(contents(folder / "sheet.toml"));
    if (is_renewal()) REQUIRE(base::write_file(folder / "expected.txt", message).empty());
    CHECK(message == contents(folder / "expected.txt"));
  }
}

TEST_CASE("given the refused sheets, then no two cases show the same message") {
  std::set<std::string> seen;
  for (const fs::path& folder : cases()) {
    CAPTURE(folder.filename().string());
    const std::string message = contents(folder / "expected.txt");
    CHECK(message != "read without a problem\n");
    CHECK(seen.insert(message).second);
  }
}

TEST_CASE("given ten million bytes of garbage, then one message says that it is too large") {
  const std::string expected =
      "sheet.toml: is larger than 4 MiB\n"
      "  Check that this is the file you meant.\n";
  CHECK(message_of(std::string(10'000'000, '=')) == expected);
  std::string noise(10'000'000, '\0');
  unsigned state = 1;
  for (char& byte : noise)
    byte = static_cast<char>((state = state * 1664525U + 1013904223U) >> 24U);
  CHECK(message_of(noise) == expected);
}

TEST_CASE("given four million bytes of garbage, then they are refused within seconds") {
  CHECK(message_of(std::string(4'000'000, '=')).size() < 100'000);
  std::string lines;
  while (lines.size() < 4'000'000) lines += "a = \n";
  CHECK(message_of(lines).size() < 100'000);
}

TEST_CASE("given brackets or dots without end, then they are refused, not followed") {
  const std::string brackets = message_of("a = " + std::string(10'000, '[') + "\n");
  CHECK(brackets.find("sheet.toml:1:37: nested deeper than 32 levels\n") == 0);
  const std::string braces = message_of("a = " + std::string(10'000, '{') + "\n");
  CHECK(braces.find("sheet.toml:1:37: nested deeper than 32 levels\n") == 0);
  std::string dots = "[a";
  for (int i = 0; i < 9000; ++i) dots += ".a";
  CHECK(message_of(dots + "]\n").find("nested deeper than 32 levels") != std::string::npos);
}

TEST_CASE("given half a million unknown keys, on one line or on many, then the list ends") {
  std::string on_one_line = "needs = { outlast = \"1 h\"";
  std::string on_many = "[needs]\n";
  for (int i = 0; i < 300'000; ++i) on_one_line += ", k" + std::to_string(i) + " = 1";
  for (int i = 0; i < 300'000; ++i) on_many += "k" + std::to_string(i) + " = 1\n";
  CHECK(message_of(on_one_line + " }\n") ==
        "sheet.toml:1: this line is longer than 20000 bytes\n"
        "  Break it: a list may go on over several lines.\n");
  const std::string message = message_of(on_many);
  CHECK(message.size() < 200'000);
  CHECK(message.find("more than 500 problems; the rest is not shown\n") != std::string::npos);
}

TEST_CASE(
    "given a list that ends after 500 problems, then what is not told costs seconds, not minutes") {
  // 4 MiB of text hold no more keys than these. An unoptimised build under a sanitizer takes some
  // thirty times as long as the program, which answers within a second: no product of the number
  // of keys and of words to choose from fits into this.
  constexpr double most_s = 30.0;
  std::string keys = "[needs]\n";
  for (int i = 0; i < 300'000; ++i) keys += "k" + std::to_string(i) + " = 1\n";
  std::string parts;
  for (int i = 0; i < 300; ++i) {
    parts += "[parts.gauge_of_the_tide_" + std::to_string(i) + "]\nkind = \"led\"\n";
  }
  std::string starts = parts + "[start]\n";
  for (int i = 0; i < 150'000; ++i) starts += "gauge_of_tide_" + std::to_string(i) + " = {}\n";
  for (const std::string& text : {keys, starts}) {
    const std::clock_t begins = std::clock();  // of this process alone, whatever else runs
    const std::string message = message_of(text);
    CHECK(static_cast<double>(std::clock() - begins) / CLOCKS_PER_SEC < most_s);
    CHECK(message.find("more than 500 problems; the rest is not shown\n") != std::string::npos);
  }
}

TEST_CASE("given more parts than anyone builds, then they are refused by number") {
  std::string text = "[needs]\noutlast = \"1 h\"\n";
  for (int i = 0; i < 301; ++i) text += "[parts.p" + std::to_string(i) + "]\nkind = \"load\"\n";
  CHECK(message_of(text).find("more than 300 parts") != std::string::npos);
}

TEST_CASE("given no sheet at all, then the message says so") {
  const auto missing = build::read_sheet_file(refuse_dir() / "no_such_folder", test_shelf());
  REQUIRE_FALSE(missing);
  CHECK(missing.problems()[0].text == "cannot read: No such file or directory");
  const auto folder = build::read_sheet_file(refuse_dir(), test_shelf());
  REQUIRE_FALSE(folder);
  CHECK(folder.problems()[0].place.file == (refuse_dir() / "sheet.toml").string());
}

#include "base/toml.hpp"

#include <doctest/doctest.h>

using namespace tideover::base;

namespace {

std::string shown(const std::string& text) { return show(read_toml(text, "s").problems); }

std::string texts(const std::string& text) {
  std::string all;
  for (const Problem& problem : read_toml(text, "s").problems) {
    all += std::to_string(problem.place.line) + ": " + problem.text + "\n";
  }
  return all;
}

}  // namespace

TEST_CASE("given TOML, then the tree keeps the order of the file and every place") {
  const TomlReading reading = read_toml(
      "title = \"hut\"\n[parts.sea]\nz = 1\na = [1.5, true]\n[leads.x]\nd = 2001-02-03\n"
      "[parts.b]\nq = { v = 'µ' }\n",
      "sheet.toml");
  REQUIRE(reading.is_whole());
  const TomlNode& root = reading.root;
  REQUIRE(root.entries.size() == 3);
  CHECK(root.entries[0].key == "title");
  CHECK(root.entries[1].key == "parts");
  CHECK(root.entries[2].key == "leads");
  const TomlNode& parts = root.entries[1].value;
  CHECK(parts.entries[0].key == "sea");
  CHECK(parts.entries[1].key == "b");
  const TomlNode& sea = parts.entries[0].value;
  CHECK(sea.entries[0].key == "z");
  CHECK(sea.entries[0].value.integer == 1);
  CHECK(sea.entries[1].key_place().line == 4);
  CHECK(sea.find("a")->items[0].real == 1.5);
  CHECK(sea.find("a")->items[1].boolean);
  CHECK(sea.find("nothing") == nullptr);
  CHECK(root.find("leads")->find("x")->find("d")->text == "2001-02-03");
  const TomlNode* v = parts.find("b")->find("q")->find("v");
  CHECK(v->text == "µ");
  CHECK(v->place().line == 8);
  CHECK(v->place().column == 11);
  CHECK(v->place().length == 3);
  CHECK(v->place().excerpt == "q = { v = 'µ' }");
}

TEST_CASE("given text with escapes, then a place inside it is the whole value") {
  const TomlReading reading = read_toml("a = \"24 Vots\"\nb = \"24 \\u0056ots\"\n", "s");
  const Place plain = reading.root.find("a")->place_inside(3, 4);
  CHECK(plain.column == 9);
  CHECK(plain.length == 4);
  const Place escaped = reading.root.find("b")->place_inside(3, 4);
  CHECK(escaped.column == 5);
}

TEST_CASE("given CRLF line ends and a byte order mark, then both are fine") {
  const TomlReading reading = read_toml(
      "\xEF\xBB\xBF"
      "a = 1\r\n[b]\r\nc = 'x'\r\n",
      "s");
  REQUIRE(reading.is_whole());
  CHECK(reading.root.find("b")->find("c")->place().excerpt == "c = 'x'");
  CHECK(reading.root.entries[0].key_place().column == 1);
}

TEST_CASE("given several independent syntax errors, then all come in one go and no bogus ones") {
  CHECK(texts("a = 24.1 V\n"
              "[ok]\n"
              "b = \n"
              "good = 1\n"
              "[parts.sea\n"
              "kind = \"load\"\n"
              "kind = \"load\"\n"
              "[parts.x]\n"
              "c = \"open\n"
              "d = [1, 2\n"
              "e = 5\n"
              "µ = 3\n"
              "f = { g = 1,\n"
              "  h = 2 }\n"
              "i = 1\n") ==
        "1: `24.1 V` stands without quotes\n"
        "3: there is no value behind the `=`\n"
        "5: this bracket is never closed\n"
        "7: `kind` is given twice, first on line 6\n"
        "9: this quote is never closed\n"
        "10: this bracket is never closed\n"
        "12: a character outside ASCII stands outside quotes\n"
        "13: a table between braces goes on over the end of its line\n");
}

TEST_CASE("given a broken file, then what is not broken is still in the tree") {
  const TomlReading reading = read_toml("a = 1\nb = = 2\nc = 3\n[x\ny = 1\n[z]\nw = 4\n", "s");
  CHECK_FALSE(reading.is_whole());
  REQUIRE(reading.root.entries.size() == 3);
  CHECK(reading.root.find("a")->integer == 1);
  CHECK(reading.root.find("c")->integer == 3);
  CHECK(reading.root.find("z")->find("w")->integer == 4);
}

TEST_CASE("given a value with a unit but without quotes, then the advice shows the quotes") {
  CHECK(shown("output = 24.1 V  # label\n") ==
        "s:1:10: `24.1 V` stands without quotes\n"
        "    output = 24.1 V  # label\n"
        "             ^^^^^^\n"
        "  Text, and a value with its unit, goes between quotes: `output = \"24.1 V\"`.\n");
  CHECK(texts("series = 05\n") ==
        "1: the line cannot be read as TOML: leading zeroes are prohibited\n");
}

TEST_CASE("given a key or a table twice, then both places are told") {
  CHECK(shown("[parts.sea]\nkind = \"load\"\n[parts.hut]\n[parts.sea]\n") ==
        "s:4:1: `sea` is given twice, first on line 1\n"
        "    [parts.sea]\n"
        "    ^^^^^^^^^^^\n"
        "  Keep one of them.\n");
  CHECK(texts("a.b = 1\na.b = 2\n") == "2: `b` is given twice, first on line 1\n");
  CHECK(texts("a = 1\n[a.b]\n") == "2: `a` is a whole number on line 1 and cannot hold `b`\n");
  CHECK(texts("a = { b = 1, b = 2 }\n") == "1: a key is given twice\n");
  CHECK(texts("[[t.s]]\nx = 1\n[[t.s]]\nx = 1\nx = 2\n") ==
        "5: `x` is given twice, first on line 4\n");
}

TEST_CASE("given bytes that are no text, then each line with one is told and nothing is parsed") {
  CHECK(texts("a = \"\xB5\"\nb = 1\nc = \"\x07\"\nd = \xFF\n") ==
        "1: this byte is not UTF-8\n3: a control character stands here\n"
        "4: this byte is not UTF-8\n");
  CHECK(texts(std::string("a = [\0]\n", 8)) == "1: a control character stands here\n");
  CHECK(texts("a = 1\rb = 2\n") == "1: a control character stands here\n");
  CHECK(texts("\xFF\xFE"
              "a") == "0: is UTF-16 text\n");
}

TEST_CASE("given nesting without end, then it is refused before it can exhaust the stack") {
  CHECK(texts("a = " + std::string(10000, '[') + "\nb = 1\n") ==
        "1: nested deeper than 32 levels\n");
  std::string dots = "a";
  for (int i = 0; i < 9000; ++i) dots += ".a";
  CHECK(texts(dots + " = 1\n") == "1: nested deeper than 32 levels\n");
  CHECK(texts("[" + dots + "]\n") == "1: nested deeper than 32 levels\n");
  CHECK(texts("a = [" + std::string(40, '.') + "1.0]\n") != "");
  std::string many = "a = [1.5";
  for (int i = 0; i < 1000; ++i) many += ", 1.5";
  CHECK(read_toml(many + "]\n", "s").is_whole());
}

TEST_CASE("given a list over ten thousand lines of brackets, then its depth counts all the same") {
  std::string text = "a = ";
  for (int i = 0; i < 10000; ++i) text += "[\n";
  CHECK(texts(text) == "33: nested deeper than 32 levels\n");
  CHECK(texts("a = \"" + std::string(20000, 'x') + "\"\n") ==
        "1: this line is longer than 20000 bytes\n");
}

TEST_CASE("given a text above the limit, then one message says so") {
  CHECK(shown(std::string(10'000'000, '=')) ==
        "s: is larger than 4 MiB\n  Check that this is the file you meant.\n");
}

TEST_CASE("given many errors, then the list ends at twenty") {
  std::string text;
  for (int i = 0; i < 100; ++i) text += "x = \n";
  CHECK(read_toml(text, "s").problems.size() == 20);
}

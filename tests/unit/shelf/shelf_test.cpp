#include "shelf/shelf.hpp"

#include <array>

#include <doctest/doctest.h>

using namespace tideover::shelf;
using tideover::base::show;

TEST_CASE("given a row without a source, then it does not load and the problem says so") {
  const std::array files{ShelfFile{"fuse.toml",
                                   "[a]\nrated = \"2 A\"\n"
                                   "[b]\nsource = \"\"\nrated = \"2 A\"\n"
                                   "[c]\nsource = \"invented\"\nrated = \"2 A\"\n"}};
  const Shelf shelf(files);
  CHECK(shelf.find_row("fuse", "a") == nullptr);
  CHECK(shelf.find_row("fuse", "b") == nullptr);
  CHECK(shelf.find_row("fuse", "c") != nullptr);
  CHECK(shelf.find_row("relay", "c") == nullptr);
  CHECK(shelf.names("fuse") == std::vector<std::string>{"c"});
  REQUIRE(shelf.problems().size() == 2);
  CHECK(shelf.problems()[0].text == "the row `a` names no source");
  CHECK(shelf.problems()[0].place.file == "shelf/fuse.toml");
}

TEST_CASE("given rows with wrong values, then the check tells each with its place") {
  const std::array files{
      ShelfFile{"fuse.toml", "[c]\nsource = \"invented\"\nrated = \"2 V\"\nweight = \"1 g\"\n"},
      ShelfFile{"cell.toml", "[d]\nsource = \"invented\"\ncapacity = \"-1 Ah\"\n"},
      ShelfFile{"sails.toml", "[e]\nsource = \"invented\"\n"},
      ShelfFile{"wire.toml", "stray = 1\n"}};
  const Shelf shelf(files);
  CHECK(show(shelf.problems()).find("a row of the shelf is a table") != std::string::npos);
  const std::string told = show(check_rows(shelf));
  CHECK(told.find("shelf/fuse.toml:3:10: expected a current") != std::string::npos);
  CHECK(told.find("shelf/fuse.toml:4:1: there is no key `weight` in a fuse") != std::string::npos);
  CHECK(told.find("shelf/cell.toml:3:12: `capacity` is -1 Ah") != std::string::npos);
  CHECK(told.find("no part takes rows named `sails`") != std::string::npos);
}

TEST_CASE("given the shelf that the program carries, then every row loads and is sound") {
  CHECK(show(built_in_shelf().problems()) == "");
  CHECK(show(check_rows(built_in_shelf())) == "");
  CHECK_FALSE(built_in_shelf().names("cell").empty());
}

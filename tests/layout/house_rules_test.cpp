#include "layout/house_rules.hpp"

#include <unistd.h>

#include <fstream>
#include <string>
#include <string_view>

#include <doctest/doctest.h>

#include "support/places.hpp"

namespace fs = std::filesystem;
using tideover::test::Breach;
using tideover::test::HouseReport;
using tideover::test::inspect_house;

namespace {

// A small tree of sources that lives as long as a test case.
class SmallHouse {
 public:
  SmallHouse() {
    std::string pattern = (fs::temp_directory_path() / "tideover-house-XXXXXX").string();
    REQUIRE(mkdtemp(pattern.data()) != nullptr);
    root_ = pattern;
  }
  SmallHouse(const SmallHouse&) = delete;
  SmallHouse& operator=(const SmallHouse&) = delete;
  ~SmallHouse() {
    std::error_code ignored;
    fs::remove_all(root_, ignored);
  }

  void put(std::string_view file, std::string_view text) const {
    const fs::path path = root_ / file;
    fs::create_directories(path.parent_path());
    std::ofstream(path) << text;
  }

  [[nodiscard]] HouseReport inspect() const { return inspect_house(root_); }
  [[nodiscard]] HouseReport inspect_as_tests() const {
    return tideover::test::inspect_test_lengths(root_);
  }

 private:
  fs::path root_;
};

// The single breach of a house with one planted fault.
std::string only_breach(const SmallHouse& house) {
  const HouseReport report = house.inspect();
  REQUIRE(report.breaches.size() == 1);
  return to_string(report.breaches.front());
}

std::string lines(int count) {
  std::string text;
  for (int i = 0; i < count; ++i) text += "//\n";
  return text;
}

}  // namespace

TEST_CASE("the sources keep the order of the house") {
  const HouseReport report = inspect_house(tideover::test::source_dir() / "src");
  CHECK(report.read.size() > 20);
  for (const Breach& advice : report.advice) MESSAGE("src/" << to_string(advice));
  for (const Breach& breach : report.breaches) FAIL_CHECK("src/" << to_string(breach));
}

TEST_CASE("a tree without fault is passed") {
  const SmallHouse house;
  house.put("base/result.hpp", "#pragma once\n#include <string>\n");
  house.put("base/toml_parse.cpp", "#include \"base/result.hpp\"\n#include <toml++/toml.h>\n");
  house.put("part/part.hpp", "#pragma once\n#include \"base/result.hpp\"\n");
  house.put("part/fuse/fuse.cpp", "#include \"part/part.hpp\"\n#include \"part/fuse/gates.hpp\"\n");
  house.put("part/charger/charger.cpp", "#include \"part/converter/converter.hpp\"\n");
  house.put("part/kind.cpp", "#include \"part/fuse/fuse.hpp\"\n");
  const HouseReport report = house.inspect();
  CHECK(report.read.size() == 6);
  CHECK(report.breaches.empty());
  CHECK(report.advice.empty());
}

TEST_CASE("an include that climbs is found with its file and line") {
  const SmallHouse house;
  house.put("network/node.hpp", "#pragma once\n\n#  include \"part/part.hpp\"\n");
  CHECK(only_breach(house) ==
        "network/node.hpp:3: network (floor 3) includes \"part/part.hpp\" (floor 4), which climbs");
}

TEST_CASE("an include that goes sideways is found") {
  const SmallHouse house;
  house.put("numeric/table.cpp", "#include \"quantity/units.hpp\"\n");
  CHECK(only_breach(house) ==
        "numeric/table.cpp:1: numeric (floor 1) includes \"quantity/units.hpp\" (floor 1), "
        "which goes sideways");
}

TEST_CASE("a part kind that includes another kind is found") {
  const SmallHouse house;
  house.put("part/fuse/fuse.cpp", "#include \"part/relay/coil.hpp\"\n");
  CHECK(only_breach(house) ==
        "part/fuse/fuse.cpp:1: part/fuse includes \"part/relay/coil.hpp\", another kind of part");
}

TEST_CASE("what all kinds share does not know a kind") {
  const SmallHouse house;
  house.put("part/part.cpp", "#include \"part/relay/coil.hpp\"\n");
  CHECK(only_breach(house) ==
        "part/part.cpp:1: part/part.cpp includes \"part/relay/coil.hpp\", another kind of part");
}

TEST_CASE("an include that is not written from src is found") {
  const SmallHouse house;
  house.put("part/fuse/fuse.cpp", "#include \"gates.hpp\"\n");
  house.put("part/fuse/gates.cpp", "#include \"../part.hpp\"\n");
  const HouseReport report = house.inspect();
  REQUIRE(report.breaches.size() == 2);
  CHECK(report.breaches[0].rule == "\"gates.hpp\" is not written from src/");
  CHECK(report.breaches[1].rule == "\"../part.hpp\" is not written from src/");
}

TEST_CASE("a heavy header outside its one source is found") {
  const SmallHouse house;
  house.put("build/reader.cpp", "#include <toml++/toml.h>\n");
  house.put("run/step.cpp", "#include <ida/ida.h>\n");
  const HouseReport report = house.inspect();
  REQUIRE(report.breaches.size() == 2);
  CHECK(report.breaches[0].rule == "<toml++/toml.h> may be included by base/toml_parse.cpp only");
  CHECK(report.breaches[1].rule == "<ida/ida.h> may be included by no source under src/");
}

TEST_CASE("folders and names that say nothing are found") {
  const SmallHouse house;
  house.put("utils/text.cpp", "");
  house.put("base/helpers.cpp", "");
  house.put("stray.cpp", "");
  const HouseReport report = house.inspect();
  REQUIRE(report.breaches.size() == 4);
  CHECK(to_string(report.breaches[0]) ==
        "base/helpers.cpp:1: 'helpers' does not say what it is for");
  CHECK(to_string(report.breaches[1]) ==
        "stray.cpp:1: a source belongs into a folder of the house");
  CHECK(to_string(report.breaches[2]) == "utils/text.cpp:1: 'utils' does not say what it is for");
  CHECK(to_string(report.breaches[3]) == "utils/text.cpp:1: 'utils' is no folder of the house");
}

TEST_CASE("a header that can be read twice is found") {
  const SmallHouse house;
  house.put("base/result.hpp", "struct Result {};\n");
  CHECK(only_breach(house) == "base/result.hpp:1: a header without #pragma once");
}

TEST_CASE("no test is longer than the house allows") {
  const HouseReport report =
      tideover::test::inspect_test_lengths(tideover::test::source_dir() / "tests");
  CHECK(report.read.size() > 50);
  for (const Breach& breach : report.breaches) FAIL_CHECK("tests/" << to_string(breach));
}

TEST_CASE("long headers are first advised about and then refused, long sources refused") {
  const SmallHouse house;
  house.put("base/short.hpp", "#pragma once\n" + lines(199));
  house.put("base/long.hpp", "#pragma once\n" + lines(200));
  house.put("base/longest.hpp", "#pragma once\n" + lines(220));
  house.put("base/short.cpp", lines(400));
  house.put("base/long.cpp", lines(401));
  const HouseReport report = house.inspect();
  REQUIRE(report.advice.size() == 1);
  CHECK(report.advice[0].file == "base/long.hpp");
  REQUIRE(report.breaches.size() == 2);
  CHECK(report.breaches[0].file == "base/long.cpp");
  CHECK(report.breaches[1].file == "base/longest.hpp");
}

TEST_CASE("a test of more than six hundred lines is refused") {
  const SmallHouse house;
  house.put("unit/run/long_test.cpp", lines(600));
  house.put("unit/run/longest_test.cpp", lines(601));
  const HouseReport report = house.inspect_as_tests();
  REQUIRE(report.breaches.size() == 1);
  CHECK(to_string(report.breaches[0]) ==
        "unit/run/longest_test.cpp:601: 601 lines; at most 600 are meant, 600 allowed");
}

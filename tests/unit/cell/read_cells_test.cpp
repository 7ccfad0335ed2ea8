#include "cell/read_cells.hpp"

#include <filesystem>
#include <string>

#include <doctest/doctest.h>

#include "base/file.hpp"

using namespace tideover;
using cell::CellFile;
using cell::CellFiles;

namespace {

/// A folder of our own that goes when the test ends.
struct Folder {
  std::filesystem::path path = std::filesystem::temp_directory_path() / "tideover-cells-test";
  Folder() {
    std::filesystem::remove_all(path);
    REQUIRE(base::make_folder(path).empty());
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
  void put(const std::string& name, std::string_view text) const {
    REQUIRE(base::write_file(path / name, text).empty());
  }
};

}  // namespace

TEST_CASE("given a folder with a bad file, then the rest of the lot is read and nothing is lost") {
  const Folder folder;
  folder.put("a1.csv", "t_s,v_V,i_A\n0,3.7,0\n10,3.6,-1\n");
  folder.put("b-broken.csv", "t_s,v_V,i_A\n0,3.7,0\n10,3.6,oops\n20,3.6,-1\n");
  folder.put("c-empty.csv", "");
  folder.put("lot.csv", "cell,capacity (mAh)\na1,2810\na9,2700\n");
  folder.put("lot2.csv", "cell,resistance (mOhm),V,date\na1,38,3.9,2024-03-01\n");
  folder.put("notes.md", "not read");
  const CellFiles cells = cell::read_cells(folder.path);
  REQUIRE(cells.files.size() == 5);
  CHECK(cells.files[0].holds == CellFile::Holds::Logs);
  CHECK(cells.files[1].holds == CellFile::Holds::Logs);
  CHECK(cells.files[2].holds == CellFile::Holds::Nothing);
  CHECK(cells.files[3].holds == CellFile::Holds::Table);
  REQUIRE(cells.logs.size() == 2);
  CHECK(cells.logs[0].cell == "a1");
  CHECK(cells.logs[1].size() == 2);
  REQUIRE(cells.tested.size() == 2);
  CHECK(cells.tested[0].capacity.has_value());
  CHECK(cells.tested[0].resistance.has_value());
  CHECK(cells.tested[0].rest_voltages.size() == 1);
  const base::Problems problems = cells.problems();
  REQUIRE(problems.size() == 2);
  CHECK(problems[0].place.file == (folder.path / "b-broken.csv").string());
  CHECK(problems[0].place.line == 3);
  CHECK(problems[1].place.file == (folder.path / "c-empty.csv").string());
}

TEST_CASE("a folder without logs, or that is none, is a problem and no more") {
  const Folder folder;
  CHECK(cell::read_cells(folder.path).problems().size() == 1);
  CHECK(cell::read_cells(folder.path / "nowhere").problems().size() == 1);
}

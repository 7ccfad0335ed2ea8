#include "base/file.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include <doctest/doctest.h>

using namespace tideover::base;
namespace fs = std::filesystem;

namespace {

/// A folder of this test alone, gone at its end.
class Folder {
 public:
  Folder() {
    std::string pattern = (fs::temp_directory_path() / "tideover_file_XXXXXX").string();
    path_ = ::mkdtemp(pattern.data());
  }
  ~Folder() { fs::remove_all(path_); }
  [[nodiscard]] fs::path operator/(const std::string& name) const { return path_ / name; }
  [[nodiscard]] const fs::path& path() const { return path_; }

 private:
  fs::path path_;
};

}  // namespace

TEST_CASE("given a file that was written, when it is read, then its bytes are the same") {
  const Folder folder;
  const std::string contents("µ\0\r\n\xFF", 6);
  REQUIRE(write_file(folder / "a", contents).empty());
  CHECK(read_file(folder / "a", 100).value() == contents);
  CHECK(std::distance(fs::directory_iterator(folder.path()), {}) == 1);  // no leftovers
}

TEST_CASE("given a file that cannot be read, then the problem says why") {
  const Folder folder;
  const auto missing = read_file(folder / "none", 100);
  REQUIRE_FALSE(missing);
  CHECK(missing.problems()[0].text == "cannot read: No such file or directory");
  CHECK(missing.problems()[0].place.file == (folder / "none").string());
  CHECK(read_file(folder.path(), 100).problems()[0].text == "is a folder, not a file");
  REQUIRE(::mkfifo((folder / "pipe").c_str(), 0600) == 0);
  CHECK(read_file(folder / "pipe", 100).problems()[0].text == "is not a regular file");
}

TEST_CASE("given a file above the limit, then it is refused without being read") {
  const Folder folder;
  REQUIRE(write_file(folder / "big", std::string(101, 'x')).empty());
  const auto read = read_file(folder / "big", 100);
  REQUIRE_FALSE(read);
  CHECK(read.problems()[0].text == "is 101 bytes, larger than the limit of 100 bytes");
}

TEST_CASE("given a write that fails, then the old contents stand and nothing is left over") {
  const Folder folder;
  REQUIRE(write_file(folder / "a", "old").empty());
  REQUIRE(make_folder(folder / "a_folder").empty());
  CHECK_FALSE(write_file(folder / "a_folder", "new").empty());
  CHECK_FALSE(write_file(folder / "nowhere/a", "new").empty());
  CHECK(read_file(folder / "a", 100).value() == "old");
  CHECK(std::distance(fs::directory_iterator(folder.path()), {}) == 2);
}

TEST_CASE("given a file with its own permissions or behind a link, then both outlive a write") {
  const Folder folder;
  REQUIRE(write_file(folder / "a", "old").empty());
  fs::permissions(folder / "a", fs::perms::owner_read | fs::perms::owner_write);
  fs::create_symlink("a", folder / "link");
  REQUIRE(write_file(folder / "link", "new").empty());
  CHECK(fs::is_symlink(folder / "link"));
  CHECK(read_file(folder / "a", 100).value() == "new");
  CHECK(fs::status(folder / "a").permissions() == (fs::perms::owner_read | fs::perms::owner_write));
}

TEST_CASE("given a folder to make, then those above it are made and standing ones are fine") {
  const Folder folder;
  CHECK(make_folder(folder / "x/y/z").empty());
  CHECK(make_folder(folder / "x/y/z").empty());
  CHECK(fs::is_directory(folder / "x/y/z"));
  REQUIRE(write_file(folder / "file", "").empty());
  CHECK_FALSE(make_folder(folder / "file").empty());
  CHECK_FALSE(make_folder(folder / "file/below").empty());
}

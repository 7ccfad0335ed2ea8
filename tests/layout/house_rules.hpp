#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace tideover::test {

// One place where a source tree breaks a rule of the house.
struct Breach {
  std::filesystem::path file;  // relative to the root of the tree
  int line = 1;                // from 1; 1 where the whole file or folder is meant
  std::string rule;            // what is wrong, and what would be right
};

struct HouseReport {
  std::vector<Breach> breaches;   // must be empty
  std::vector<Breach> advice;     // long files: worth a look, no failure
  std::vector<std::string> read;  // every source that was read, relative to the root
};

// Reads every source under `root`, a tree shaped like src/, and holds it against the rules:
// which folder may include which, where third-party headers may appear, lengths, names.
// Throws std::filesystem::filesystem_error if `root` is not a readable folder.
[[nodiscard]] HouseReport inspect_house(const std::filesystem::path& root);

// The lengths of the files of a tree of tests, which may be longer than sources.
[[nodiscard]] HouseReport inspect_test_lengths(const std::filesystem::path& root);

// "file:line: rule", the form in which compilers report.
[[nodiscard]] std::string to_string(const Breach& breach);

}  // namespace tideover::test

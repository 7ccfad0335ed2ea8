#pragma once

#include <filesystem>

namespace tideover::test {

// The source tree that the tests were built from.
inline std::filesystem::path source_dir() { return TIDEOVER_SOURCE_DIR; }

// Whole builds that the documentation, the tests and the first run share.
inline std::filesystem::path examples_dir() { return source_dir() / "examples"; }

// Files that tests read: sheets to refuse, tables out of publications, expected outputs.
inline std::filesystem::path data_dir() { return source_dir() / "tests" / "data"; }

// The program that this build made, for tests that run it from outside.
inline std::filesystem::path program() { return TIDEOVER_PROGRAM; }

}  // namespace tideover::test

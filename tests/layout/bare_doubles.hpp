#pragma once

#include <filesystem>
#include <string_view>
#include <vector>

#include "layout/house_rules.hpp"

namespace tideover::test {

// Above the laws of parts (floor 5 and up) a quantity is a strong type. A plain double in a header
// there has a name that ends in its unit, or is one of the listed shares, counts and factors.
// `root` is a tree shaped like src/.
[[nodiscard]] std::vector<Breach> find_bare_doubles(const std::filesystem::path& root);

// The names that a text declares as double, or as something that holds doubles, and that say no
// unit; each with its line. Comments and texts in quotes are not read.
[[nodiscard]] std::vector<Breach> bare_doubles_in(std::string_view text,
                                                  const std::filesystem::path& file);

}  // namespace tideover::test

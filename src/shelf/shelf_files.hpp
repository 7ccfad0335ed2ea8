/// The shelf as it was when the program was built: the files of the folder shelf/, text and all.
/// They are part of the program, so that it finds them wherever it is installed.
#pragma once

#include <span>
#include <string_view>

namespace tideover::shelf {

struct ShelfFile {
  std::string_view name;  ///< "fuse.toml"
  std::string_view text;  ///< UTF-8, as the file stands
};

/// Every file of the shelf, by name in ascending order. The build writes the definition.
[[nodiscard]] std::span<const ShelfFile> shelf_files();

}  // namespace tideover::shelf

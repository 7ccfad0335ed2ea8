# Writes shelf/*.toml into a source of the library (src/shelf/shelf_files.hpp declares it), so
# that the program carries its shelf and never has to look for it.
file(GLOB shelf_files CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/shelf/*.toml")
list(SORT shelf_files)
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${shelf_files})

set(rows "")
list(LENGTH shelf_files row_count)
foreach(path IN LISTS shelf_files)
  cmake_path(GET path FILENAME name)
  file(READ "${path}" text)
  string(APPEND rows "    ShelfFile{\"${name}\", R\"=shelf=(${text})=shelf=\"},\n")
endforeach()

file(CONFIGURE OUTPUT "${PROJECT_BINARY_DIR}/generated/shelf_files.cpp" @ONLY CONTENT
[[// Written by the build from the files of shelf/.
#include "shelf/shelf_files.hpp"

#include <array>

namespace tideover::shelf {

std::span<const ShelfFile> shelf_files() {
  static constexpr std::array<ShelfFile, @row_count@> files{{
@rows@  }};
  return files;
}

}  // namespace tideover::shelf
]])
target_sources(tideover_library PRIVATE "${PROJECT_BINARY_DIR}/generated/shelf_files.cpp")

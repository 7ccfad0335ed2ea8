# The page, built from web/ and carried by the program (src/server/assets.hpp declares the table).
file(CONFIGURE OUTPUT "${PROJECT_BINARY_DIR}/generated/embedded_files.cpp" @ONLY CONTENT
[[// Written by the build: this program carries no page.
#include "server/assets.hpp"

namespace tideover::server {

std::span<const EmbeddedFile> embedded_files() { return {}; }

}  // namespace tideover::server
]])
target_sources(tideover_library PRIVATE "${PROJECT_BINARY_DIR}/generated/embedded_files.cpp")

/// The door to files: read whole with a limit, write whole or not at all, make folders.
/// What goes wrong is a Problem whose place is the file as a whole.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace tideover::base {

/// Bytes of the regular file `path` as they are. A Problem if it is missing, not a regular file
/// (or a link to one), not readable, or larger than `limit_bytes`.
[[nodiscard]] Result<std::string> read_file(const std::filesystem::path& path,
                                            std::uint64_t limit_bytes);

/// Replaces or makes `path`. After any failure, or a loss of power, the file has either its old
/// contents or the new ones whole: a temporary file in the same folder is written, flushed to the
/// disk and renamed. Empty when all went well.
[[nodiscard]] Problems write_file(const std::filesystem::path& path, std::string_view contents);

/// Makes the folder and those above it; a folder that stands already is fine.
[[nodiscard]] Problems make_folder(const std::filesystem::path& path);

}  // namespace tideover::base

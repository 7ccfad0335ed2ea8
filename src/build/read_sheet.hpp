/// From the text of a build sheet to a Build, or to everything that is wrong with it.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "base/result.hpp"
#include "build/build.hpp"
#include "part/read_fields.hpp"

namespace tideover::build {

/// The file of a project's sheet.
inline constexpr std::string_view sheet_file_name = "sheet.toml";

/// Reads the sheet whole. All problems come together, in the order of the file; if there is any,
/// there is no build. `file_name` is what messages call it.
[[nodiscard]] base::Result<Build> read_sheet(std::string_view text, const std::string& file_name,
                                             const part::Stock& shelf);

/// The same from the project's folder or from the sheet itself.
[[nodiscard]] base::Result<Build> read_sheet_file(const std::filesystem::path& path,
                                                  const part::Stock& shelf);

/// The problems alone, apart as a schema could tell them and not. Syntax errors are `form`.
[[nodiscard]] part::Findings check_sheet(std::string_view text, const std::string& file_name,
                                         const part::Stock& shelf);

}  // namespace tideover::build

/// What verbs that look at a project share: reading its sheet, refusing it, and the head of an
/// answer in JSON.
#pragma once

#include <filesystem>

#include "build/build.hpp"
#include "service/verb.hpp"

namespace tideover::service {

/// The sheet of the project's folder, or the sheet itself, or the request's text in its place; with
/// the values that the request sets.
[[nodiscard]] base::Result<build::Build> read_project(const Request& request);
/// The project's folder, whichever of the two was named.
[[nodiscard]] std::filesystem::path folder_of(const std::filesystem::path& folder);

[[nodiscard]] Reply refusal(const base::Problems& problems);
[[nodiscard]] Json problems_json(const base::Problems& problems);

/// "tideover", "verb", "title", "sheet".
[[nodiscard]] Json::Object preamble(std::string_view verb, const build::Build& build);
/// The same, and the answer behind it.
[[nodiscard]] Json::Object with_preamble(std::string_view verb, const build::Build& build,
                                         Json::Object answer);

}  // namespace tideover::service

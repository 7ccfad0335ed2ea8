#include "service/project.hpp"

#include <optional>
#include <vector>

#include "base/file.hpp"
#include "base/toml.hpp"
#include "build/parameter.hpp"
#include "build/read_sheet.hpp"
#include "cell/cell_row.hpp"
#include "shelf/shelf.hpp"

namespace tideover::service {

namespace {

/// A folder that is there but holds no sheet: what to do now.
base::Problem no_sheet_in(const std::filesystem::path& folder) {
  base::Problem problem{
      {},
      "there is no sheet.toml in this folder",
      "Write one, or copy one of the examples and change it; `tideover kinds` tells what parts may "
      "stand in it. If the project lies elsewhere, name its folder behind the verb."};
  problem.place.file = folder.string();
  return problem;
}

/// The program's shelf, and on it the project's fitted cell if it has one.
base::Result<std::optional<shelf::Shelf>> own_shelf(const std::filesystem::path& folder) {
  const std::filesystem::path file = folder_of(folder) / "cells" / "fitted.toml";
  std::error_code ignored;
  if (!std::filesystem::exists(file, ignored)) return std::optional<shelf::Shelf>{};
  const auto text = base::read_file(file, base::largest_toml_bytes);
  if (!text) return text.problems();
  const auto row = cell::read_row_text(text.value(), file.string());
  if (!row) return row.problems();
  const auto carried = shelf::shelf_files();
  std::vector<shelf::ShelfFile> files(carried.begin(), carried.end());
  files.push_back({"cell.toml", text.value()});
  return std::optional<shelf::Shelf>(shelf::Shelf(files));
}

base::Result<build::Build> read_text_or_file(const Request& request, const part::Stock& shelf) {
  const std::filesystem::path& folder = request.folder;
  std::error_code ignored;
  const bool is_folder = std::filesystem::is_directory(folder, ignored);
  const std::filesystem::path file = is_folder ? folder / build::sheet_file_name : folder;
  if (request.text) {
    return build::read_sheet(*request.text, file.string(), shelf);
  }
  if (is_folder && !std::filesystem::exists(file, ignored)) return no_sheet_in(folder);
  return build::read_sheet_file(file, shelf);
}

}  // namespace

base::Result<build::Build> read_project(const Request& request) {
  const auto own = own_shelf(request.folder);
  if (!own) return own.problems();
  const shelf::Shelf& shelf = own.value() ? *own.value() : shelf::built_in_shelf();
  auto read = read_text_or_file(request, shelf);
  if (!read) return read;
  build::Build build = std::move(read).value();
  base::Problems problems;
  for (const std::string& assignment : request.set) {
    auto told = build::set_value(build, assignment, shelf);
    problems.insert(problems.end(), told.begin(), told.end());
  }
  if (!problems.empty()) return problems;
  return build;
}

std::filesystem::path folder_of(const std::filesystem::path& folder) {
  std::error_code ignored;
  if (std::filesystem::is_directory(folder, ignored)) return folder;
  const std::filesystem::path above = folder.parent_path();
  return above.empty() ? "." : above;
}

Json problems_json(const base::Problems& problems) {
  Json::List list;
  for (const base::Problem& problem : problems) {
    list.push_back(Json::Object{{"file", problem.place.file},
                                {"line", problem.place.line},
                                {"column", problem.place.column},
                                {"length", problem.place.length},
                                {"text", problem.text},
                                {"remedy", problem.remedy},
                                {"excerpt", problem.place.excerpt}});
  }
  return list;
}

Reply refusal(const base::Problems& problems) {
  Reply reply{.status = Status::Refused};
  reply.problems = problems;
  reply.json = Json::Object{{"tideover", version()}, {"problems", problems_json(problems)}};
  return reply;
}

Json::Object preamble(std::string_view verb, const build::Build& build) {
  return {{"tideover", version()}, {"verb", verb}, {"title", build.title}, {"sheet", build.file}};
}

Json::Object with_preamble(std::string_view verb, const build::Build& build, Json::Object answer) {
  Json::Object json = preamble(verb, build);
  for (auto& entry : answer) json.push_back(std::move(entry));
  return json;
}

}  // namespace tideover::service

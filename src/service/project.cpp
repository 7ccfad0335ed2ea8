#include "service/project.hpp"

#include "build/parameter.hpp"
#include "build/read_sheet.hpp"
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

base::Result<build::Build> read_text_or_file(const Request& request) {
  const std::filesystem::path& folder = request.folder;
  std::error_code ignored;
  const bool is_folder = std::filesystem::is_directory(folder, ignored);
  const std::filesystem::path file = is_folder ? folder / build::sheet_file_name : folder;
  if (request.text) {
    return build::read_sheet(*request.text, file.string(), shelf::built_in_shelf());
  }
  if (is_folder && !std::filesystem::exists(file, ignored)) return no_sheet_in(folder);
  return build::read_sheet_file(file, shelf::built_in_shelf());
}

}  // namespace

base::Result<build::Build> read_project(const Request& request) {
  auto read = read_text_or_file(request);
  if (!read) return read;
  build::Build build = std::move(read).value();
  base::Problems problems;
  for (const std::string& assignment : request.set) {
    auto told = build::set_value(build, assignment, shelf::built_in_shelf());
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

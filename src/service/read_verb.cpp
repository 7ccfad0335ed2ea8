#include "service/read_verb.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "question/phrases.hpp"
#include "service/project.hpp"

namespace tideover::service {

namespace {

Json::Object counts_of(const build::Build& build) {
  return {{"parts", static_cast<long>(build.parts.size())},
          {"leads", static_cast<long>(build.leads.size())},
          {"joins", static_cast<long>(build.joins.size())},
          {"timelines", static_cast<long>(build.timelines.size())}};
}

Reply read(const Request& request, base::Progress&) {
  const auto build = read_project(request);
  if (!build) return refusal(build.problems());
  const build::Build& read = build.value();
  Reply reply;
  reply.lines = {{Tone::Strong, read.title.empty() ? read.file : read.title},
                 {Tone::Good, fmt::format("The sheet is sound: {}, {}, {}, {}.",
                                          question::counted(read.parts.size(), "part"),
                                          question::counted(read.leads.size(), "lead"),
                                          question::counted(read.joins.size(), "join"),
                                          question::counted(read.timelines.size(), "timeline"))}};
  Json::List parts;
  for (const auto& part : read.parts) {
    parts.push_back(Json::Object{{"name", part->name}, {"kind", part->description().name}});
  }
  Json::Object json = preamble("read", read);
  json.emplace_back("counts", counts_of(read));
  json.emplace_back("parts", std::move(parts));
  reply.json = std::move(json);
  return reply;
}

}  // namespace

Verb read_verb() {
  return {"read", "check a build sheet and run nothing",
          "Reads the sheet of a project and says everything that is wrong with it: file, line, "
          "column, what was expected. Nothing is run and nothing is written.",
          true, read};
}

}  // namespace tideover::service

#include "server/routes.hpp"

#include <chrono>
#include <memory>

#include "build/edit_sheet.hpp"
#include "build/read_sheet.hpp"
#include "server/ask.hpp"
#include "server/page_request.hpp"
#include "server/problem_answer.hpp"
#include "service/project.hpp"
#include "shelf/shelf.hpp"

namespace tideover::server {

using service::Json;

namespace {

HttpFields fields_for(std::string_view type) {
  HttpFields fields = protective_fields();
  fields.emplace_back("Content-Type", type);
  fields.emplace_back("Cache-Control", "no-store");
  return fields;
}

HttpAnswer json_answer(const Json& json, int status = 200) {
  HttpAnswer answer{.status = status};
  answer.fields = fields_for("application/json");
  answer.body = write_json(json, service::Layout::OneLine) + "\n";
  return answer;
}

Json verb_json(const service::Verb& verb) {
  Json::List options;
  for (const service::Option& option : verb.options) {
    options.push_back(
        Json::Object{{"name", option.name}, {"takes", option.takes}, {"means", option.means}});
  }
  return Json::Object{{"name", verb.name},
                      {"means", verb.means},
                      {"explains", verb.explains},
                      {"takes_folder", verb.takes_folder},
                      {"word", verb.word},
                      {"word_means", verb.word_means},
                      {"options", std::move(options)}};
}

std::filesystem::path sheet_of(const std::filesystem::path& project) {
  std::error_code ignored;
  const bool is_folder = std::filesystem::is_directory(project, ignored);
  return is_folder ? project / build::sheet_file_name : project;
}

HttpAnswer wrong_method(std::string_view allowed) {
  HttpAnswer answer = problem_answer(405, "this address is asked for in another way");
  answer.fields.emplace_back("Allow", allowed);
  return answer;
}

Json problems_of_sheet(const std::string& text, const std::filesystem::path& file) {
  const auto read = build::read_sheet(text, file.string(), shelf::built_in_shelf());
  return service::problems_json(read ? base::Problems{} : read.problems());
}

HttpAnswer conflict(const Saving& saving) {
  const Json revision = saving.found ? Json(saving.found->revision) : Json();
  const Json text = saving.found ? Json(saving.found->text) : Json();
  return json_answer(Json::Object{{"title", "the sheet on disk is another than you started from"},
                                  {"status", 409},
                                  {"revision", revision},
                                  {"text", text}},
                     409);
}

HttpAnswer not_understood(const base::Problems& problems) {
  return problem_answer(400, "the request is not understood", problems);
}

}  // namespace

Routes::Routes(std::filesystem::path project, Door door, Assets assets)
    : project_(std::move(project)),
      file_(sheet_of(project_)),
      door_(std::move(door)),
      assets_(std::move(assets)) {}

std::optional<HttpAnswer> Routes::refuse(const HttpHead& head) { return refusal_of(head, door_); }

Answering Routes::answer(HttpRequest request) {
  const HttpHead& head = request.head;
  const std::string path = head.target.substr(0, head.target.find('?'));
  const bool is_get = head.method == "GET";
  const bool is_post = head.method == "POST";
  if (path != "/api" && !path.starts_with("/api/")) {
    if (!is_get && head.method != "HEAD") return wrong_method("GET, HEAD");
    return assets_.answer(head);
  }
  if (path == "/api/hello") return is_get ? hello() : wrong_method("GET");
  if (path == "/api/sheet") return is_get ? sheet() : wrong_method("GET");
  if (path == "/api/watch") return is_get ? Answering(watch()) : wrong_method("GET");
  if (path == "/api/save") return is_post ? save(request.body) : wrong_method("POST");
  if (path == "/api/edit") return is_post ? edit(request.body) : wrong_method("POST");
  if (path == "/api/ask") return is_post ? ask(request.body) : wrong_method("POST");
  return problem_answer(404, "there is nothing at this address");
}

HttpAnswer Routes::hello() const {
  Json::List verbs;
  for (const service::Verb& verb : service::verbs()) verbs.push_back(verb_json(verb));
  std::error_code ignored;
  const auto folder =
      std::filesystem::weakly_canonical(service::folder_of(project_), ignored).filename();
  return json_answer(Json::Object{{"tideover", service::version()},
                                  {"folder", folder.string()},
                                  {"sheet", file_.path().filename().string()},
                                  {"has_sheet", file_.exists()},
                                  {"verbs", std::move(verbs)}});
}

HttpAnswer Routes::sheet() const {
  if (!file_.exists()) return problem_answer(404, "there is no sheet here yet");
  auto state = file_.read();
  if (!state) return problem_answer(500, "the sheet cannot be read", state.problems());
  return json_answer(
      Json::Object{{"text", state.value().text}, {"revision", state.value().revision}});
}

Watch Routes::watch() const {
  using Clock = std::chrono::steady_clock;
  struct State {
    SheetWatch watch;
    Clock::time_point told = Clock::now();
  };
  const auto state = std::make_shared<State>(State{SheetWatch(file_)});
  const auto look = [state]() -> std::string {
    constexpr std::chrono::seconds heartbeat{10};
    const auto revision = state->watch.look();
    if (!revision && Clock::now() - state->told < heartbeat) return {};
    state->told = Clock::now();
    if (!revision) return "\n";
    const Json known = revision->empty() ? Json() : Json(*revision);
    return write_json(Json::Object{{"revision", known}}, service::Layout::OneLine) + "\n";
  };
  return {fields_for("application/x-ndjson"), look};
}

Answering Routes::save(const std::string& body) const {
  auto request = read_save_request(body);
  if (!request) return not_understood(request.problems());
  return Errand([file = file_, asked = std::move(request).value()] {
    const Saving saving = file.save(asked.text, asked.base);
    if (saving.is_saved) return json_answer(Json::Object{{"revision", revision_of(asked.text)}});
    if (saving.problems.empty()) return conflict(saving);
    return problem_answer(500, "the sheet could not be saved", saving.problems);
  });
}

Answering Routes::edit(const std::string& body) const {
  auto request = read_edit_request(body);
  if (!request) return not_understood(request.problems());
  return Errand([file = file_.path(), asked = std::move(request).value()] {
    const auto text = build::edit_sheet(asked.text, asked.edits, file.string());
    if (!text) return problem_answer(422, "the edit cannot be made", text.problems());
    return json_answer(
        Json::Object{{"text", text.value()}, {"problems", problems_of_sheet(text.value(), file)}});
  });
}

Answering Routes::ask(const std::string& body) const {
  auto request = read_ask_request(body);
  if (!request) return not_understood(request.problems());
  service::Request asked = std::move(request).value();
  asked.folder = project_;
  return Question{fields_for("application/x-ndjson"),
                  [asked = std::move(asked)](Outlet& outlet) { server::ask(asked, outlet); }};
}

}  // namespace tideover::server

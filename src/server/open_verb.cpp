#include "server/open_verb.hpp"

#include <charconv>
#include <cstdio>
#include <cstdlib>

#include <fmt/format.h>

#include "server/browser.hpp"
#include "server/http_server.hpp"
#include "server/routes.hpp"
#include "service/project.hpp"

namespace tideover::server {

using service::Reply;
using service::Request;

namespace {

base::Result<std::uint16_t> port_of(const Request& request) {
  const std::string text = request.option("--port").value_or("0");
  std::uint16_t port = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), port);
  if (fault == std::errc() && end == text.data() + text.size()) return port;
  return base::Problem{{}, "--port is " + text, "Expected a whole number from 0 to 65535."};
}

std::optional<std::filesystem::path> assets_folder(const Request& request) {
  const auto named = request.option("--assets");
  if (!named) return std::nullopt;
  return std::filesystem::path(*named);
}

base::Problems look_at_project(const std::filesystem::path& project) {
  std::error_code ignored;
  if (std::filesystem::exists(project, ignored)) return {};
  base::Problem problem{{}, "there is no such folder", "Make it, or name another."};
  problem.place.file = project.string();
  return {problem};
}

base::Problem no_page() {
  return {
      {},
      "the page is not in this build of the program",
      "Build it where Node.js and npm are installed; every question can be asked on the command "
      "line."};
}

base::Problem no_set() {
  return {{}, "`open` takes no --set", "Change values on the page; it can take every change back."};
}

/// Set for tests and by those who keep an address over a restart of the program.
std::string key_of_run() {
  const char* const given = std::getenv("TIDEOVER_KEY");
  return given != nullptr && *given != '\0' ? given : random_key();
}

Reply open(const Request& request, base::Progress& progress) {
  const auto port = port_of(request);
  if (!port) return service::refusal(port.problems());
  if (auto problems = look_at_project(request.folder); !problems.empty()) {
    return service::refusal(problems);
  }
  if (!request.set.empty()) return service::refusal({no_set()});
  const Assets assets(assets_folder(request));
  if (!assets.has_page()) return service::refusal({no_page()});
  const auto server = HttpServer::listen(port.value());
  if (!server) return service::refusal(server.problems());
  HttpServer& http = *server.value();
  const Door door{http.port(), key_of_run()};
  const std::string address = fmt::format("{}/#key={}", door.address(), door.key);
  std::puts((address + "\nOnly this machine reaches it, and only with the key in the address. "
                       "Ctrl-C ends it.")
                .c_str());
  std::fflush(stdout);
  Reply reply;
  if (request.option("--browser")) reply.problems = start_browser(address);
  Routes routes(request.folder, door, assets);
  http.serve(routes, [&] { return progress.stop_asked(); });
  reply.document = "Ended.\n";
  return reply;
}

}  // namespace

service::Verb open_verb() {
  return {"open",
          "the build as a page in your browser, to see, change and understand it",
          "Serves a page on this machine alone (127.0.0.1) and prints its address with a key that "
          "is new every time; open it in a browser. The page asks the same questions as this "
          "command line, and saves what you change into the sheet where it stood, never over a "
          "change that was made elsewhere meanwhile. Goes on until Ctrl-C.",
          true,
          open,
          {},
          {},
          {{"--port", "N", "this port; any that is free if left out"},
           {"--browser", "", "open the address in the browser that is set up here"},
           {"--assets", "FOLDER", "the page's files from here, for those who work on the page"}}};
}

}  // namespace tideover::server

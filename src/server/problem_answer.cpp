#include "server/problem_answer.hpp"

#include "service/project.hpp"

namespace tideover::server {

using service::Json;

HttpAnswer problem_answer(int status, const std::string& title, const base::Problems& problems) {
  HttpAnswer answer{.status = status};
  answer.fields = protective_fields();
  answer.fields.emplace_back("Content-Type", "application/problem+json");
  answer.fields.emplace_back("Cache-Control", "no-store");
  const Json json = Json::Object{
      {"title", title}, {"status", status}, {"problems", service::problems_json(problems)}};
  answer.body = write_json(json, service::Layout::OneLine) + "\n";
  return answer;
}

HttpFields protective_fields() {
  return {{"Content-Security-Policy",
           "default-src 'self'; connect-src 'self'; img-src 'self' data:; base-uri 'none'; "
           "form-action 'none'; frame-ancestors 'none'; object-src 'none'"},
          {"X-Content-Type-Options", "nosniff"},
          {"Referrer-Policy", "no-referrer"},
          {"Cross-Origin-Opener-Policy", "same-origin"},
          {"Cross-Origin-Resource-Policy", "same-origin"}};
}

}  // namespace tideover::server

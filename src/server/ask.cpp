#include "server/ask.hpp"

#include <array>
#include <chrono>
#include <exception>
#include <mutex>

#include "service/project.hpp"

namespace tideover::server {

using service::Json;

namespace {

using Clock = std::chrono::steady_clock;

std::string line_of(Json json) { return write_json(json, service::Layout::OneLine) + "\n"; }

class Telling final : public base::Progress {
 public:
  explicit Telling(Outlet& outlet) : outlet_(outlet) {}

  void report(double share, std::string_view doing) override {
    if (is_too_soon()) return;
    outlet_.send(line_of(Json::Object{{"progress", share}, {"words", doing}}));
  }
  [[nodiscard]] bool stop_asked() const override { return outlet_.is_closed(); }

 private:
  /// More often than an eye follows, or than the other side reads.
  bool is_too_soon() {
    constexpr std::chrono::milliseconds apart{100};
    const std::lock_guard lock(mutex_);
    const Clock::time_point now = Clock::now();
    if (now - told_ < apart || outlet_.is_behind()) return true;
    told_ = now;
    return false;
  }

  Outlet& outlet_;
  std::mutex mutex_;
  Clock::time_point told_ = Clock::now();
};

std::string_view word_of(service::Tone tone) {
  static constexpr std::array<std::string_view, 6> words{"plain", "strong",  "quiet",
                                                         "good",  "warning", "bad"};
  return words.at(static_cast<std::size_t>(tone));
}

Json lines_json(const std::vector<service::Line>& lines) {
  Json::List list;
  for (const service::Line& line : lines) {
    list.push_back(Json::Object{{"tone", word_of(line.tone)}, {"words", line.words}});
  }
  return list;
}

Json reply_json(const service::Reply& reply) {
  Json::Object json{{"status", static_cast<int>(reply.status)},
                    {"answer", reply.json},
                    {"lines", lines_json(reply.lines)},
                    {"problems", service::problems_json(reply.problems)}};
  if (!reply.document.empty()) json.emplace_back("document", reply.document);
  return json;
}

service::Reply fault(const std::string& what) {
  service::Reply reply{.status = service::Status::OurFault};
  reply.problems.push_back(
      {{}, "a fault inside the program: " + what, "Please report it with the sheet."});
  return reply;
}

service::Reply answer_of(const service::Request& request, base::Progress& progress) {
  try {
    return service::answer(request, progress);
  } catch (const std::exception& error) {
    return fault(error.what());
  }
}

}  // namespace

void ask(service::Request request, Outlet& outlet) {
  Telling telling(outlet);
  request.partial = [&outlet](const Json& so_far) {
    if (!outlet.is_behind()) outlet.send(line_of(Json::Object{{"partial", so_far}}));
  };
  const service::Reply reply = answer_of(request, telling);
  if (!outlet.is_closed()) outlet.send(line_of(reply_json(reply)));
}

}  // namespace tideover::server

/// Requests and answers as the page's door knows them; what reads them from a socket is elsewhere.
/// Source of methods, fields and statuses: RFC 9110.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace tideover::server {

using HttpFields = std::vector<std::pair<std::string, std::string>>;

/// A request without its body.
struct HttpHead {
  std::string method;  ///< "GET"
  std::string target;  ///< "/api/sheet", as it came
  HttpFields fields;   ///< in the order they came

  /// The field of that name, in any case; nothing if it is absent or came more than once.
  [[nodiscard]] std::optional<std::string_view> only(std::string_view name) const;
  [[nodiscard]] bool has(std::string_view name) const;
};

struct HttpRequest {
  HttpHead head;
  std::string body;
};

/// A whole answer.
struct HttpAnswer {
  int status = 200;
  HttpFields fields;
  std::string body;
  std::string_view fixed;  ///< a body that outlives the program's work, in place of `body`
};

/// Where an answer goes that comes in pieces. Any thread may use it, and nothing here waits.
class Outlet {
 public:
  virtual ~Outlet() = default;
  virtual void send(std::string piece) = 0;
  /// The other side takes pieces more slowly than they come: what may be left out should be.
  [[nodiscard]] virtual bool is_behind() const = 0;
  /// Nobody listens any more, or the server stops.
  [[nodiscard]] virtual bool is_closed() const = 0;
};

/// Work of a moment, done in the order it was asked for and never two at a time.
using Errand = std::function<HttpAnswer()>;

/// Work of seconds or minutes; what it sends is the body.
struct Question {
  HttpFields fields;
  std::function<void(Outlet&)> work;
};

/// An answer without end: `look` is asked again and again, and what it returns is sent.
struct Watch {
  HttpFields fields;
  std::function<std::string()> look;
};

using Answering = std::variant<HttpAnswer, Errand, Question, Watch>;

/// Who answers. Called on the thread that serves; both return at once.
class HttpHandler {
 public:
  virtual ~HttpHandler() = default;
  /// Looks at a request before its body is read; an answer if it goes no further.
  virtual std::optional<HttpAnswer> refuse(const HttpHead& head) = 0;
  virtual Answering answer(HttpRequest request) = 0;
};

/// Status line and fields, without the empty line that ends a head.
[[nodiscard]] std::string head_text(const HttpAnswer& answer, bool keeps_alive);

}  // namespace tideover::server

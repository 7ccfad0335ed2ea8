#include "server/http_connection.hpp"

#include <algorithm>
#include <array>
#include <deque>
#include <string>
#include <utility>

// The library's own templates, made here.
#pragma GCC diagnostic ignored "-Wzero-as-null-pointer-constant"

#include <boost/asio.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>
#include <fmt/format.h>

#include "server/problem_answer.hpp"

namespace tideover::server {

namespace {

namespace net = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;
using net::ip::tcp;
using Error = boost::system::error_code;

/// A buffer of what was read holds a head, and a little of the body behind it.
constexpr std::size_t buffer_bytes = 64U << 10U;
/// How long what was not read of a refused request is waited for, so that the refusal arrives.
constexpr std::chrono::milliseconds lingers{1000};

class Connection;

/// The outlet of one question; safe to use when its connection is long gone.
class Pieces final : public Outlet {
 public:
  Pieces(Hall& hall, std::weak_ptr<Connection> to) : hall_(hall), to_(std::move(to)) {}
  void send(std::string piece) override;
  [[nodiscard]] bool is_behind() const override { return unsent >= hall_.limits.unsent_bytes; }
  [[nodiscard]] bool is_closed() const override { return closed || hall_.stops; }
  void end();

  std::atomic<bool> closed = false;
  std::atomic<std::size_t> unsent = 0;

 private:
  Hall& hall_;
  std::weak_ptr<Connection> to_;
};

/// One connection: reads a request, has it answered, writes, and begins anew.
class Connection : public std::enable_shared_from_this<Connection> {
 public:
  Connection(Hall& hall, tcp::socket socket, bool is_welcome)
      : hall_(hall),
        socket_(std::move(socket)),
        deadline_(hall.io),
        look_timer_(hall.io),
        is_welcome_(is_welcome) {
    ++(is_welcome_ ? hall_.open : hall_.turned_away);
  }
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;
  ~Connection() { --(is_welcome_ ? hall_.open : hall_.turned_away); }

  void begin() {
    if (is_welcome_) {
      read_head();
    } else {
      HttpAnswer full = problem_answer(503, "there are too many connections");
      full.fields.emplace_back("Retry-After", "1");
      refuse(std::move(full));
    }
  }

  void push(std::string piece) { send_owned(fmt::format("{:x}\r\n{}\r\n", piece.size(), piece)); }
  void end_pieces() {
    is_answered_ = true;
    send_owned("0\r\n\r\n");
  }
  void note_sent(std::size_t bytes) const {
    if (pieces_) pieces_->unsent -= std::min(bytes, pieces_->unsent.load());
  }

 private:
  struct Piece {
    std::string owned;
    std::string_view fixed;
    [[nodiscard]] net::const_buffer bytes() const {
      return fixed.empty() ? net::buffer(owned) : net::buffer(fixed.data(), fixed.size());
    }
  };

  void read_head() {
    parser_.emplace();
    parser_->header_limit(hall_.limits.header_bytes);
    parser_->body_limit(hall_.limits.body_bytes);
    is_answered_ = false;
    set_deadline(hall_.limits.read);
    http::async_read_header(socket_, buffer_, *parser_,
                            [self = shared_from_this()](Error error, std::size_t) {
                              if (!self->has_failed(error)) self->look_at_head();
                            });
  }

  /// True if nothing more is to be done with this request.
  bool has_failed(Error error) {
    if (!error) return false;
    if (error == http::error::header_limit || error == http::error::buffer_overflow) {
      refuse(problem_answer(431, "the head of the request is too large"));
    } else if (error == http::error::body_limit) {
      refuse(problem_answer(413, "the body of the request is too large"));
    } else if (error.category() == http::make_error_code(http::error::bad_method).category() &&
               error != http::error::end_of_stream && error != http::error::partial_message) {
      refuse(problem_answer(400, "this is no request of HTTP/1.1"));
    } else {
      close();
    }
    return true;
  }

  void look_at_head() {
    const auto& message = parser_->get();
    HttpHead head{std::string(message.method_string()), std::string(message.target()), {}};
    for (const auto& field : message) {
      head.fields.emplace_back(field.name_string(), field.value());
    }
    if (message.version() != 11) return refuse(problem_answer(505, "only HTTP/1.1 is spoken here"));
    if (auto refusal = hall_.handler.refuse(head)) return refuse(std::move(*refusal));
    head_ = std::move(head);
    if (beast::iequals(message[http::field::expect], "100-continue")) {
      static constexpr std::string_view go_on = "HTTP/1.1 100 Continue\r\n\r\n";
      net::async_write(socket_, net::buffer(go_on.data(), go_on.size()),
                       [self = shared_from_this()](Error error, std::size_t) {
                         if (!self->has_failed(error)) self->read_body();
                       });
      return;
    }
    read_body();
  }

  void read_body() {
    http::async_read(socket_, buffer_, *parser_,
                     [self = shared_from_this()](Error error, std::size_t) {
                       if (!self->has_failed(error)) self->answer();
                     });
  }

  void answer() {
    deadline_.cancel();
    keeps_alive_ = parser_->get().keep_alive();
    Answering answering = hall_.handler.answer({head_, std::move(parser_->get().body())});
    if (auto* whole = std::get_if<HttpAnswer>(&answering)) return respond(std::move(*whole));
    if (auto* errand = std::get_if<Errand>(&answering)) return run_errand(std::move(*errand));
    if (auto* question = std::get_if<Question>(&answering)) return ask(std::move(*question));
    watch(std::get<Watch>(std::move(answering)));
  }

  void run_errand(Errand errand) {
    hall_.errands->add([self = shared_from_this(), run = std::move(errand)] {
      net::post(self->hall_.io,
                [self, answer = run()]() mutable { self->respond(std::move(answer)); });
    });
  }

  void ask(Question question) {
    begin_pieces(std::move(question.fields));
    hall_.questions->add([pieces = pieces_, work = std::move(question.work)] {
      if (!pieces->is_closed()) work(*pieces);
      pieces->end();
    });
  }

  void watch(Watch watch) {
    begin_pieces(std::move(watch.fields));
    look_again(std::make_shared<Watch>(std::move(watch)));
  }

  void look_again(const std::shared_ptr<Watch>& watch) {
    std::string seen = pieces_->is_behind() ? std::string() : watch->look();
    if (!seen.empty()) pieces_->send(std::move(seen));
    look_timer_.expires_after(hall_.limits.look);
    look_timer_.async_wait([self = shared_from_this(), watch](Error error) {
      if (!error && !self->is_closed_) self->look_again(watch);
    });
  }

  void begin_pieces(HttpFields fields) {
    pieces_ = std::make_shared<Pieces>(hall_, weak_from_this());
    fields.emplace_back("Transfer-Encoding", "chunked");
    send_owned(head_text({200, std::move(fields), {}, {}}, keeps_alive_) + "\r\n");
    listen_for_close();
  }

  /// A question whose asker has gone is not worked on.
  void listen_for_close() {
    is_listening_ = true;
    socket_.async_read_some(buffer_.prepare(1),
                            [self = shared_from_this()](Error error, std::size_t bytes) {
                              self->is_listening_ = false;
                              self->buffer_.commit(bytes);  // the next request may come early
                              if (self->begins_anew_) return self->begin_anew();
                              if (error) self->close();
                            });
  }

  void begin_anew() {
    begins_anew_ = false;
    if (!is_closed_) read_head();
  }

  void respond(HttpAnswer answer) {
    is_answered_ = true;
    const std::size_t length = answer.fixed.empty() ? answer.body.size() : answer.fixed.size();
    std::string head = head_text(answer, keeps_alive_);
    if (answer.status != 304) head += fmt::format("Content-Length: {}\r\n", length);
    const bool is_bodiless = head_.method == "HEAD" || answer.status == 304;
    send_owned(head + "\r\n" + (is_bodiless ? "" : answer.body));
    if (!is_bodiless && !answer.fixed.empty()) send({{}, answer.fixed});
  }

  void refuse(HttpAnswer answer) {
    keeps_alive_ = false;
    respond(std::move(answer));
  }

  void send_owned(std::string text) { send({std::move(text), {}}); }
  void send(Piece piece) {
    if (is_closed_) return;
    unsent_.push_back(std::move(piece));
    if (!is_writing_) write_next();
  }

  void write_next() {
    is_writing_ = !unsent_.empty();
    if (!is_writing_) return is_answered_ ? finish() : (void)deadline_.cancel();
    set_deadline(hall_.limits.write);
    net::async_write(socket_, unsent_.front().bytes(),
                     [self = shared_from_this()](Error error, std::size_t bytes) {
                       if (error) return self->close();
                       self->note_sent(bytes);
                       self->unsent_.pop_front();
                       self->write_next();
                     });
  }

  void finish() {
    pieces_.reset();
    if (!keeps_alive_) return linger();
    if (!is_listening_) return read_head();
    begins_anew_ = true;
    Error ignored;
    socket_.cancel(ignored);
  }

  /// Reads away what still comes: closing at once would throw the answer away with it.
  void linger() {
    Error ignored;
    socket_.shutdown(tcp::socket::shutdown_send, ignored);
    set_deadline(lingers);
    read_away();
  }
  void read_away() {
    socket_.async_read_some(net::buffer(waste_),
                            [self = shared_from_this()](Error error, std::size_t) {
                              if (error || self->is_closed_) return self->close();
                              self->read_away();
                            });
  }

  void set_deadline(std::chrono::milliseconds after) {
    deadline_.expires_after(after);
    deadline_.async_wait([self = shared_from_this()](Error error) {
      // One that ran out while it was being set anew does not count.
      const bool is_over = self->deadline_.expiry() <= net::steady_timer::clock_type::now();
      if (!error && is_over) self->close();
    });
  }

  void close() {
    is_closed_ = true;
    if (pieces_) pieces_->closed = true;
    deadline_.cancel();
    look_timer_.cancel();
    Error ignored;
    socket_.close(ignored);
  }

  Hall& hall_;
  tcp::socket socket_;
  net::steady_timer deadline_;
  net::steady_timer look_timer_;
  bool is_welcome_;
  beast::flat_buffer buffer_{buffer_bytes};
  std::optional<http::request_parser<http::string_body>> parser_;
  HttpHead head_;
  std::shared_ptr<Pieces> pieces_;
  std::deque<Piece> unsent_;
  std::array<char, 4096> waste_{};
  bool keeps_alive_ = true;
  bool is_writing_ = false;
  bool is_answered_ = false;
  bool is_listening_ = false;
  bool begins_anew_ = false;
  bool is_closed_ = false;
};

void Pieces::send(std::string piece) {
  if (piece.empty() || is_closed()) return;
  unsent += piece.size();
  net::post(hall_.io, [to = to_, piece = std::move(piece)]() mutable {
    if (const auto connection = to.lock()) connection->push(std::move(piece));
  });
}

void Pieces::end() {
  net::post(hall_.io, [to = to_] {
    if (const auto connection = to.lock()) connection->end_pieces();
  });
}

}  // namespace

void begin_connection(Hall& hall, tcp::socket socket, bool is_welcome) {
  std::make_shared<Connection>(hall, std::move(socket), is_welcome)->begin();
}

}  // namespace tideover::server

#include "server/http_server.hpp"

#include <optional>
#include <utility>

#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/steady_timer.hpp>
#include <fmt/format.h>

#include "server/http_connection.hpp"

namespace tideover::server {

namespace {

namespace net = boost::asio;
using net::ip::tcp;
using Error = boost::system::error_code;

/// So many are told to come back at a time; others find the door shut.
constexpr std::size_t most_turned_away = 256;

class LoopbackServer final : public HttpServer {
 public:
  LoopbackServer(const HttpLimits& limits)
      : limits_(limits), acceptor_(io_), retry_(io_), ask_(io_) {}

  Error open(std::uint16_t port) {
    const tcp::endpoint here(net::ip::address_v4::loopback(), port);
    Error error;
    acceptor_.open(here.protocol(), error);
    if (!error) acceptor_.set_option(tcp::acceptor::reuse_address(true), error);
    if (!error) acceptor_.bind(here, error);
    if (!error) acceptor_.listen(net::socket_base::max_listen_connections, error);
    return error;
  }

  [[nodiscard]] std::uint16_t port() const override { return acceptor_.local_endpoint().port(); }

  void serve(HttpHandler& handler, const std::function<bool()>& stop_asked) override {
    hall_.emplace(io_, handler, limits_);
    accept();
    look_whether_to_stop(stop_asked);
    io_.run();
    Error ignored;
    acceptor_.close(ignored);
    hall_->stops = true;
    // Ends before what it posts its results to.
    hall_->errands.reset();
    hall_->questions.reset();
  }

 private:
  void accept() {
    acceptor_.async_accept([this](Error error, tcp::socket socket) {
      if (error == net::error::operation_aborted) return;
      if (error) return accept_later();
      socket.set_option(tcp::no_delay(true), error);
      const bool is_welcome = hall_->open < limits_.connections;
      if (is_welcome || hall_->turned_away < most_turned_away) {
        begin_connection(*hall_, std::move(socket), is_welcome);
      }
      accept();
    });
  }

  /// No descriptors left, perhaps: some will be free in a moment.
  void accept_later() {
    retry_.expires_after(std::chrono::milliseconds(100));
    retry_.async_wait([this](Error error) {
      if (!error) accept();
    });
  }

  void look_whether_to_stop(const std::function<bool()>& stop_asked) {
    if (stop_asked()) return io_.stop();
    ask_.expires_after(std::chrono::milliseconds(50));
    ask_.async_wait([this, &stop_asked](Error) { look_whether_to_stop(stop_asked); });
  }

  HttpLimits limits_;
  std::optional<Hall> hall_;  // left by the last connection, with what io_ still holds
  net::io_context io_{1};
  tcp::acceptor acceptor_;
  net::steady_timer retry_;
  net::steady_timer ask_;
};

}  // namespace

base::Result<std::unique_ptr<HttpServer>> HttpServer::listen(std::uint16_t port,
                                                             const HttpLimits& limits) {
  auto server = std::make_unique<LoopbackServer>(limits);
  if (const Error error = server->open(port)) {
    return base::Problem{
        {},
        fmt::format("port {} of 127.0.0.1 cannot be used: {}", port, error.message()),
        "Another program may hold it; name another, or none for any that is free."};
  }
  return std::unique_ptr<HttpServer>(std::move(server));
}

}  // namespace tideover::server

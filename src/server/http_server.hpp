/// The door: HTTP/1.1 (RFC 9112) on the loopback address, on one thread, with limits on everything
/// that comes in; work is done on threads of its own. The one place that knows the network library.
#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>

#include "base/result.hpp"
#include "server/http.hpp"

namespace tideover::server {

/// Assumed; far above what the page needs, far below what would hurt.
struct HttpLimits {
  std::uint32_t header_bytes = 16U << 10U;
  std::uint64_t body_bytes = 1U << 20U;
  std::size_t connections = 64;            ///< more are told to come back
  std::size_t questions_at_once = 2;       ///< others wait
  std::size_t unsent_bytes = 256 << 10;    ///< of pieces, from which on an outlet is behind
  std::chrono::milliseconds read{15000};   ///< for a request, from when the last one was answered
  std::chrono::milliseconds write{30000};  ///< for a piece of an answer
  std::chrono::milliseconds look{250};     ///< between the looks of a watch
};

class HttpServer {
 public:
  /// Takes the port of 127.0.0.1; 0: any that is free.
  [[nodiscard]] static base::Result<std::unique_ptr<HttpServer>> listen(
      std::uint16_t port, const HttpLimits& limits = {});
  virtual ~HttpServer() = default;

  [[nodiscard]] virtual std::uint16_t port() const = 0;
  /// Returns soon after `stop_asked` turns true, which is asked several times a second. Questions
  /// see their outlets closed.
  virtual void serve(HttpHandler& handler, const std::function<bool()>& stop_asked) = 0;
};

}  // namespace tideover::server

/// One connection of the door and what all of them share. For http_server.cpp alone.
#pragma once

#include <atomic>
#include <cstddef>
#include <optional>

#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>

#include "server/http_server.hpp"
#include "server/work_pool.hpp"

namespace tideover::server {

/// What connections share. Outlives them all.
struct Hall {
  Hall(boost::asio::io_context& io_, HttpHandler& handler_, const HttpLimits& limits_)
      : io(io_), handler(handler_), limits(limits_) {
    errands.emplace(1);
    questions.emplace(limits.questions_at_once);
  }
  boost::asio::io_context& io;
  HttpHandler& handler;
  const HttpLimits& limits;
  std::atomic<bool> stops = false;
  std::size_t open = 0;
  std::size_t turned_away = 0;
  std::optional<WorkPool> errands;
  std::optional<WorkPool> questions;
};

/// Reads requests from the socket and has them answered until it is closed; on the thread that runs
/// `hall.io`. One that is not welcome is told to come back.
void begin_connection(Hall& hall, boost::asio::ip::tcp::socket socket, bool is_welcome);

}  // namespace tideover::server

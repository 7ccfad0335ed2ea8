/// Who may come in: the browser of this machine's user, from our own page. Other programs and other
/// users of the machine reach the loopback address too, and so do pages of other sites through the
/// user's browser.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "server/http.hpp"

namespace tideover::server {

struct Door {
  std::uint16_t port = 0;
  std::string key;  ///< every request to /api names it in `X-Tideover-Key`

  [[nodiscard]] std::string address() const;  ///< "http://127.0.0.1:8123"
};

/// 128 random bits in hexadecimal, from the system.
[[nodiscard]] std::string random_key();

/// The refusal, if any: 421 for a Host that is not ours (a name rebound to this address), 403 for
/// another Origin, 401 without the key.
[[nodiscard]] std::optional<HttpAnswer> refusal_of(const HttpHead& head, const Door& door);

}  // namespace tideover::server

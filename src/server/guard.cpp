#include "server/guard.hpp"

#include <array>
#include <random>

#include <fmt/format.h>

#include "server/problem_answer.hpp"

namespace tideover::server {

namespace {

/// Takes the same time wherever the two differ.
bool is_same(std::string_view given, std::string_view key) {
  if (given.size() != key.size()) return false;
  unsigned differences = 0;
  for (std::size_t k = 0; k < key.size(); ++k) {
    differences |= given[k] == key[k] ? 0U : 1U;
  }
  return differences == 0;
}

std::array<std::string, 2> hosts_of(const Door& door) {
  return {fmt::format("127.0.0.1:{}", door.port), fmt::format("localhost:{}", door.port)};
}

}  // namespace

std::string Door::address() const { return "http://" + hosts_of(*this)[0]; }

std::string random_key() {
  std::random_device device;  // the system's own source in libstdc++ on Linux
  std::string key;
  for (int k = 0; k < 4; ++k) key += fmt::format("{:08x}", device());
  return key;
}

std::optional<HttpAnswer> refusal_of(const HttpHead& head, const Door& door) {
  const std::array<std::string, 2> hosts = hosts_of(door);
  const auto host = head.only("Host");
  if (!host || (*host != hosts[0] && *host != hosts[1])) {
    return problem_answer(421, "this address is not served here");
  }
  if (head.has("Origin")) {
    const auto origin = head.only("Origin");
    if (!origin || (*origin != "http://" + hosts[0] && *origin != "http://" + hosts[1])) {
      return problem_answer(403, "another site may not ask here");
    }
  }
  const bool is_asking =
      head.target == "/api" || head.target.starts_with("/api/") || head.target.starts_with("/api?");
  if (!is_asking) return std::nullopt;
  const auto key = head.only("X-Tideover-Key");
  if (!key || !is_same(*key, door.key)) {
    return problem_answer(401, "the key is missing or wrong; open the address that was printed");
  }
  return std::nullopt;
}

}  // namespace tideover::server

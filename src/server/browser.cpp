#include "server/browser.hpp"

#include <unistd.h>

#include <array>
#include <spawn.h>

namespace tideover::server {

base::Problems start_browser(const std::string& address) {
  std::string program = "xdg-open";
  std::string word = address;
  const std::array<char*, 3> words{program.data(), word.data(), nullptr};
  pid_t child = 0;
  if (posix_spawnp(&child, program.c_str(), nullptr, nullptr, words.data(), environ) == 0) {
    return {};
  }
  return {{{}, "no browser could be started", "Open the printed address in one yourself."}};
}

}  // namespace tideover::server

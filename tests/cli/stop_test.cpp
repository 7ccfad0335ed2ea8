// Ctrl-C in the middle of the work.
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <string>
#include <thread>

#include <doctest/doctest.h>

#include "support/places.hpp"

namespace fs = std::filesystem;

TEST_CASE(
    "given a report at work, when Ctrl-C comes, then it ends soon with 130 and the last one "
    "stays") {
  std::string pattern = (fs::temp_directory_path() / "tideover-stop-XXXXXX").string();
  REQUIRE(mkdtemp(pattern.data()) != nullptr);
  const fs::path folder = pattern;
  fs::copy(tideover::test::examples_dir() / "tide-hut", folder / "hut",
           fs::copy_options::recursive);
  fs::remove_all(folder / "hut" / "out");
  fs::create_directory(folder / "hut" / "out");
  std::ofstream(folder / "hut" / "out" / "report.html") << "the last one";

  const pid_t child = fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    const bool is_set = chdir(folder.c_str()) == 0 && freopen("stdout", "w", stdout) != nullptr &&
                        freopen("stderr", "w", stderr) != nullptr;
    if (!is_set) _exit(98);
    execl(tideover::test::program().c_str(), "tideover", "report", "hut", nullptr);
    _exit(99);
  }
  std::this_thread::sleep_for(std::chrono::milliseconds(700));
  CHECK(kill(child, SIGINT) == 0);
  int status = 0;
  bool has_ended = false;
  for (int tenths = 0; tenths < 50 && !has_ended; ++tenths) {
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
    has_ended = waitpid(child, &status, WNOHANG) == child;
  }
  if (!has_ended) kill(child, SIGKILL);
  REQUIRE(has_ended);
  CHECK(WIFEXITED(status));
  CHECK(WEXITSTATUS(status) == 130);
  std::ifstream kept(folder / "hut" / "out" / "report.html");
  std::string words;
  std::getline(kept, words);
  CHECK(words == "the last one");
  fs::remove_all(folder);
}

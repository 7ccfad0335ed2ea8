// Ctrl-C in the middle of the work.
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>
#include <thread>

#include <doctest/doctest.h>

#include "service/json.hpp"
#include "support/places.hpp"

namespace fs = std::filesystem;

namespace {

std::string contents(const fs::path& path) {
  std::ifstream stream(path, std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

void wait_a_tenth() { std::this_thread::sleep_for(std::chrono::milliseconds(100)); }

// `tideover report hut` on a copy of the tide hut, in a folder of its own.
class Reporting {
 public:
  Reporting() {
    std::string pattern = (fs::temp_directory_path() / "tideover-stop-XXXXXX").string();
    REQUIRE(mkdtemp(pattern.data()) != nullptr);
    folder_ = pattern;
    fs::copy(tideover::test::examples_dir() / "tide-hut", folder_ / "hut",
             fs::copy_options::recursive);
    fs::remove_all(out());
    fs::create_directory(out());
  }
  Reporting(const Reporting&) = delete;
  Reporting& operator=(const Reporting&) = delete;
  ~Reporting() {
    if (child_ > 0) kill(child_, SIGKILL);
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
  }

  void begin() {
    child_ = fork();
    REQUIRE(child_ >= 0);
    if (child_ > 0) return;
    const bool is_set = chdir(folder_.c_str()) == 0 && freopen("stdout", "w", stdout) != nullptr &&
                        freopen("stderr", "w", stderr) != nullptr;
    if (!is_set) _exit(98);
    execl(tideover::test::program().c_str(), "tideover", "report", "hut", nullptr);
    _exit(99);
  }
  // Exit status after Ctrl-C; nothing if it went on for longer than `seconds`.
  std::optional<int> stop(int seconds) {
    CHECK(kill(child_, SIGINT) == 0);
    int status = 0;
    for (int tenths = 0; tenths < 10 * seconds; ++tenths) {
      wait_a_tenth();
      if (waitpid(child_, &status, WNOHANG) != child_) continue;
      child_ = 0;
      return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    }
    return std::nullopt;
  }
  [[nodiscard]] bool has_told(const std::string& words) const {
    return contents(folder_ / "stderr").find(words) != std::string::npos;
  }
  [[nodiscard]] fs::path out() const { return folder_ / "hut" / "out"; }

 private:
  fs::path folder_;
  pid_t child_ = 0;
};

}  // namespace

TEST_CASE(
    "given a report at work, when Ctrl-C comes, then it ends soon with 130 and the last one "
    "stays") {
  Reporting reporting;
  std::ofstream(reporting.out() / "report.html") << "the last one";
  reporting.begin();
  std::this_thread::sleep_for(std::chrono::milliseconds(700));
  CHECK(reporting.stop(5) == 130);
  CHECK(contents(reporting.out() / "report.html") == "the last one");
}

TEST_CASE(
    "given a first report that is trying faults, when Ctrl-C comes, then its files are whole and "
    "say that they are partial") {
  Reporting reporting;
  reporting.begin();
  constexpr int patience_tenths = 3000;  // a slow machine under sanitizers
  for (int tenths = 0; tenths < patience_tenths && !reporting.has_told("one fault after"); ++tenths)
    wait_a_tenth();
  REQUIRE(reporting.has_told("one fault after"));
  for (int tenths = 0; tenths < 20; ++tenths) wait_a_tenth();  // some faults, not all
  // It draws and writes what it has: seconds, more on a machine with other work.
  REQUIRE(reporting.stop(60) == 130);
  const std::string html = contents(reporting.out() / "report.html");
  CHECK(html.ends_with("</html>\n"));
  const auto json = tideover::service::read_json(contents(reporting.out() / "faults.json"));
  REQUIRE(json);
  const double tried = static_cast<double>(json.value().find("faults")->list()->size());
  // A slow machine has tried none yet.
  const char* const told =
      tried > 0.0 ? "This is not the whole table" : "Stopped before any fault was tried";
  CHECK(html.find(told) != std::string::npos);
  CHECK(tried < json.value().find("faults_in_all")->number().value());
  CHECK(contents(reporting.out() / "faults.csv").ends_with("\r\n"));
}

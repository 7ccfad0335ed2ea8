#include "cli/command_line.hpp"

#include <fstream>
#include <sstream>

#include <doctest/doctest.h>

#include "cli/completion.hpp"
#include "support/places.hpp"

using namespace tideover;
using cli::Call;
using cli::read_command_line;

namespace {

Call call(const std::vector<std::string>& words) {
  const auto read = read_command_line(words);
  REQUIRE(read);
  return read.value();
}

base::Problem refusal(const std::vector<std::string>& words) {
  const auto read = read_command_line(words);
  REQUIRE_FALSE(read);
  return read.problems().front();
}

}  // namespace

TEST_CASE("a verb takes the current folder unless one is named") {
  CHECK(call({"predict"}).request.verb == "predict");
  CHECK(call({"predict"}).request.folder == ".");
  CHECK(call({"predict", "tide-hut"}).request.folder == "tide-hut");
  CHECK(call({"report", "--json", "a/sheet.toml"}).as_json);
  CHECK(call({"report", "a/sheet.toml", "--json"}).request.folder == "a/sheet.toml");
}

TEST_CASE("some verbs take a word instead of a folder") {
  CHECK(call({"kinds"}).request.word.empty());
  CHECK(call({"kinds", "relay"}).request.word == "relay");
  CHECK(call({"shelf", "fuse", "--json"}).request.word == "fuse");
  CHECK_FALSE(read_command_line({"kinds", "relay", "fuse"}));
}

TEST_CASE("a mistyped verb is met with the nearest one") {
  CHECK(refusal({"predct"}).text == "there is no `predct`");
  CHECK(refusal({"predct"}).remedy == "Did you mean `predict`?");
  CHECK(refusal({"xyzzy"}).remedy ==
        "There is `predict`, `changeover`, `check`, `bands`, `faults`, `report`, `values`, "
        "`trace`, `cells`, `cell-run`, `read`, `schema`, "
        "`kinds`, `shelf` and `completion`.");
}

TEST_CASE("a mistyped option too") {
  CHECK(refusal({"predict", "--jsn"}).remedy == "Did you mean `--json`?");
}

TEST_CASE("nothing asked and too much asked are refused") {
  CHECK(refusal({}).text == "what should be answered?");
  CHECK(!refusal({"predict", "one", "two"}).text.empty());
  CHECK(!refusal({"completion"}).text.empty());
  CHECK(refusal({"completion", "fsh"}).remedy == "Did you mean `fish`?");
}

TEST_CASE("help says how, with examples, for the program and for a verb") {
  const Call help = call({"--help"});
  CHECK(help.what == Call::What::Print);
  for (const service::Verb& verb : service::verbs()) {
    CHECK(help.text.find(verb.name) != std::string::npos);
    CHECK(help.text.find(verb.means) != std::string::npos);
  }
  CHECK(help.text.find("Examples:") != std::string::npos);
  CHECK(help.text.find("Exit status:") != std::string::npos);
  const Call report = call({"report", "--help"});
  CHECK(report.text.find("out/report.html") != std::string::npos);
  CHECK(report.text.find("FOLDER") != std::string::npos);
}

TEST_CASE("the version is the project's") {
  CHECK(call({"--version"}).text == "tideover " TIDEOVER_VERSION "\n");
}

TEST_CASE("every shell's completion knows every verb") {
  for (const std::string& shell : cli::completion_shells()) {
    const std::string script = cli::completion_script(shell);
    for (const service::Verb& verb : service::verbs()) {
      CHECK(script.find(verb.name) != std::string::npos);
    }
    CHECK(script.ends_with('\n'));
  }
}

TEST_CASE("the manual page knows every verb") {
  std::ifstream stream(test::source_dir() / "docs" / "man" / "tideover.1");
  std::ostringstream page;
  page << stream.rdbuf();
  for (const service::Verb& verb : service::verbs()) {
    CHECK(page.str().find(".B " + std::string(verb.name) + "\n") != std::string::npos);
  }
}

// The program from outside, as a builder meets it in a terminal or a script.

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

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

// A folder of its own for each test case.
class Workbench {
 public:
  Workbench() {
    std::string pattern = (fs::temp_directory_path() / "tideover-cli-XXXXXX").string();
    REQUIRE(mkdtemp(pattern.data()) != nullptr);
    root_ = pattern;
  }
  Workbench(const Workbench&) = delete;
  Workbench& operator=(const Workbench&) = delete;
  ~Workbench() {
    std::error_code ignored;
    fs::remove_all(root_, ignored);
  }

  struct Ran {
    int status;
    std::string out;
    std::string talk;
  };
  // `words` as typed in a shell, in this folder.
  [[nodiscard]] Ran run(const std::string& words, const std::string& before = "") const {
    const std::string command = "cd '" + root_.string() + "' && " + before + " '" +
                                tideover::test::program().string() + "' " + words +
                                " > .out 2> .talk";
    const int ended = std::system(command.c_str());
    return {WIFEXITED(ended) ? WEXITSTATUS(ended) : -1, contents(root_ / ".out"),
            contents(root_ / ".talk")};
  }
  void put(const std::string& file, const std::string& text) const {
    fs::create_directories((root_ / file).parent_path());
    std::ofstream(root_ / file, std::ios::binary) << text;
  }
  void put_example(const std::string& name) const {
    fs::create_directories(root_ / name);
    fs::copy(tideover::test::examples_dir() / name / "sheet.toml", root_ / name / "sheet.toml");
  }
  [[nodiscard]] const fs::path& root() const { return root_; }

 private:
  fs::path root_;
};

bool contains(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

// One device on one adapter: nothing carries it when the mains goes.
const std::string bare_sheet = R"([sheet]
title = "Bare lamp"

[needs]
outlast = "10 min"

[parts.lamp]
kind = "load"
draws = "3 W"
accepts = "10 V to 14 V"

[parts.wall]
kind = "adapter"
output = "12 V"
rated = "1 A"

[leads.there]
between = ["wall.plus", "lamp.plus"]
size = "0.75 mm2"
length = "1 m"

[leads.back]
between = ["lamp.minus", "wall.minus"]
size = "0.75 mm2"
length = "1 m"

[[timelines.short.stretch]]
mains = "present"
lasts = "1 min"

[[timelines.short.stretch]]
mains = "absent"
lasts = "20 min"
)";

}  // namespace

TEST_CASE("help and version go to standard output and succeed") {
  const Workbench bench;
  const auto help = bench.run("--help");
  CHECK(help.status == 0);
  CHECK(contains(help.out, "Examples:"));
  CHECK(help.talk.empty());
  const auto version = bench.run("--version");
  CHECK(version.status == 0);
  CHECK(version.out == "tideover " TIDEOVER_VERSION "\n");
}

TEST_CASE("a wrong verb is status 2, with the nearest one, on standard error") {
  const Workbench bench;
  const auto ran = bench.run("repot");
  CHECK(ran.status == 2);
  CHECK(ran.out.empty());
  CHECK(contains(ran.talk, "there is no `repot`"));
  CHECK(contains(ran.talk, "Did you mean `report`?"));
}

TEST_CASE("no verb at all is status 2") {
  const Workbench bench;
  CHECK(bench.run("").status == 2);
}

TEST_CASE("a missing folder is named") {
  const Workbench bench;
  const auto ran = bench.run("predict nowhere");
  CHECK(ran.status == 2);
  CHECK(ran.out.empty());
  CHECK(contains(ran.talk, "nowhere"));
}

TEST_CASE("a folder without a sheet is status 2") {
  const Workbench bench;
  const auto ran = bench.run("predict");
  CHECK(ran.status == 2);
  CHECK(contains(ran.talk, "there is no sheet.toml in this folder"));
  CHECK(contains(ran.talk, "copy one of the examples"));
}

TEST_CASE("a broken sheet gets every message with its place, and nothing is run") {
  const Workbench bench;
  bench.put("hut/sheet.toml",
            "[parts.sea]\nkind = \"load\"\ndraws = \"3 V\"\naccepts = \"20 V to\"\n");
  const auto ran = bench.run("report hut");
  CHECK(ran.status == 2);
  CHECK(ran.out.empty());
  CHECK(contains(ran.talk, "hut/sheet.toml:3:"));
  CHECK(contains(ran.talk, "hut/sheet.toml:4:"));
  CHECK(contains(ran.talk, "^"));
  CHECK_FALSE(fs::exists(bench.root() / "hut" / "out"));
}

TEST_CASE("the same for programs: problems as JSON on standard output") {
  const Workbench bench;
  bench.put("hut/sheet.toml", "[parts.sea]\nkind = \"loud\"\n");
  const auto ran = bench.run("predict --json hut");
  CHECK(ran.status == 2);
  const auto json = tideover::service::read_json(ran.out);
  REQUIRE(json);
  const auto* const problems = json.value().find("problems");
  REQUIRE(problems != nullptr);
  REQUIRE(problems->list() != nullptr);
  CHECK(problems->list()->back().find("line")->number() == 2.0);
  CHECK(problems->list()->back().find("remedy")->text()->find("`load`") != std::string::npos);
}

TEST_CASE("reading checks a sheet and writes nothing") {
  const Workbench bench;
  bench.put("sheet.toml", bare_sheet);
  const auto ran = bench.run("read");
  CHECK(ran.status == 0);
  CHECK(contains(ran.out, "The sheet is sound: 2 parts, 2 leads, 0 joins, 1 timeline."));
  CHECK_FALSE(fs::exists(bench.root() / "out"));
}

TEST_CASE("a lamp that nothing carries is status 1, and says why") {
  const Workbench bench;
  bench.put("sheet.toml", bare_sheet);
  const auto ran = bench.run("predict sheet.toml");
  CHECK(ran.status == 1);
  CHECK(contains(ran.out, "Bare lamp"));
  CHECK(contains(ran.out, "Does not carry the device across the loss of mains"));
  CHECK(contains(ran.out, "fails"));
  CHECK_FALSE(contains(ran.out, "\x1b["));
}

TEST_CASE("a pipe gets no colour even when it is asked for by the terminal's name") {
  const Workbench bench;
  bench.put("sheet.toml", bare_sheet);
  CHECK_FALSE(contains(bench.run("predict", "TERM=xterm-256color").out, "\x1b["));
}

TEST_CASE("the schema is one JSON document on standard output") {
  const Workbench bench;
  const auto ran = bench.run("schema");
  CHECK(ran.status == 0);
  const auto json = tideover::service::read_json(ran.out);
  REQUIRE(json);
  CHECK(json.value().find("properties") != nullptr);
}

TEST_CASE("completion prints a script") {
  const Workbench bench;
  const auto ran = bench.run("completion bash");
  CHECK(ran.status == 0);
  bench.put("completion.bash", ran.out);
  CHECK(std::system(("bash -n '" + (bench.root() / "completion.bash").string() + "'").c_str()) ==
        0);
  CHECK(bench.run("completion tcsh").status == 2);
}

TEST_CASE("the tide hut is carried, and its report is written whole") {
  const Workbench bench;
  bench.put_example("tide-hut");
  const auto ran = bench.run("report tide-hut");
  CHECK_MESSAGE(ran.status == 0, ran.out << ran.talk);
  CHECK(contains(ran.out, "Carries both devices for"));
  CHECK(contains(ran.out, "Written: tide-hut/out/report.html"));
  CHECK(contains(contents(bench.root() / "tide-hut/out/report.html"), "</html>"));
  CHECK(contains(contents(bench.root() / "tide-hut/out/run.csv"), "time [s]"));
  CHECK(contains(contents(bench.root() / "tide-hut/out/report.html"), "Before you plug it in"));
  CHECK(contents(bench.root() / "tide-hut/out/faults.csv").starts_with("subject,mode,"));
  CHECK(tideover::service::read_json(contents(bench.root() / "tide-hut/out/faults.json")));
  const auto json = tideover::service::read_json(contents(bench.root() / "tide-hut/out/run.json"));
  REQUIRE(json);
  // Three timelines, each under three circumstances.
  CHECK(json.value().find("runs")->list()->size() == 9);
}

TEST_CASE("the hut with two balance leads swapped fails, says why, and has a report all the same") {
  const Workbench bench;
  std::string sheet = contents(tideover::test::examples_dir() / "tide-hut" / "sheet.toml");
  const auto swap = [&sheet](const std::string& from, const std::string& to) {
    sheet.replace(sheet.find(from), from.size(), to);
  };
  swap("\"board.tap2\"", "\"board.tapX\"");
  swap("\"board.tap3\"", "\"board.tap2\"");
  swap("\"board.tapX\"", "\"board.tap3\"");
  bench.put("hut/sheet.toml", sheet);
  const auto ran = bench.run("report hut");
  CHECK_MESSAGE(ran.status == 1, ran.out << ran.talk);
  CHECK(contains(ran.out, "Before anything else: board is fed backwards"));
  CHECK(contains(ran.out, "two of the leads to its taps and ends are swapped"));
  CHECK(contains(contents(bench.root() / "hut/out/report.html"), "</html>"));
}

TEST_CASE("both devices of the tide hut ride through every change of source") {
  const Workbench bench;
  bench.put_example("tide-hut");
  const auto ran = bench.run("changeover --json tide-hut");
  CHECK_MESSAGE(ran.status == 0, ran.out << ran.talk);
  const auto json = tideover::service::read_json(ran.out);
  REQUIRE(json);
  // The mains goes and comes back, the board cuts, one plug is pulled and put back.
  const auto* const changes = json.value().find("changes")->list();
  REQUIRE(changes->size() == 5);
  CHECK(*changes->front().find("words")->text() == "the mains goes");
  // As in the timeline, at the highest and at the lowest draw.
  CHECK(changes->front().find("views")->list()->size() == 3);
  const auto words = bench.run("changeover tide-hut");
  CHECK(contains(words.out, "Every device rides through every change of source."));
  CHECK(contains(words.out, "changeover contact touches the rest side"));
  CHECK_FALSE(fs::exists(bench.root() / "tide-hut" / "out"));
}

TEST_CASE("a lamp on one adapter does not ride through its loss: status 1") {
  const Workbench bench;
  bench.put("sheet.toml", bare_sheet);
  const auto ran = bench.run("changeover");
  CHECK(ran.status == 1);
  CHECK(contains(ran.out, "lamp does not ride through"));
  CHECK(contains(ran.out, "No capacitor makes up for a source"));
}

TEST_CASE("the kinds of parts and the rows of the shelf can be listed") {
  const Workbench bench;
  const auto kinds = bench.run("kinds");
  CHECK(kinds.status == 0);
  CHECK(contains(kinds.out, "relay: "));
  const auto relay = bench.run("kinds relay");
  CHECK(contains(relay.out, "coil_rated"));
  CHECK(bench.run("kinds rely").status == 2);
  CHECK(contains(bench.run("kinds rely").talk, "Did you mean `relay`?"));
  CHECK(contains(bench.run("shelf fuse").out, "shelf:glass-5x20-t-1a"));
  const auto json = tideover::service::read_json(bench.run("shelf --json").out);
  REQUIRE(json);
  CHECK(json.value().find("lists") != nullptr);
}

TEST_CASE("two runs of one sheet give the same bytes") {
  const Workbench bench;
  bench.put("sheet.toml", bare_sheet);
  CHECK(bench.run("predict --json").out == bench.run("predict --json").out);
}

TEST_CASE("a report that cannot be written is told, and status 2") {
  const Workbench bench;
  bench.put("sheet.toml", bare_sheet);
  bench.put("out", "a file where the folder should be");
  const auto ran = bench.run("report");
  CHECK(ran.status == 2);
  CHECK(contains(ran.talk, "out"));
}

TEST_CASE(
    "the faults of a lamp on one adapter are told in words and as JSON, and nothing written") {
  const Workbench bench;
  bench.put("sheet.toml", bare_sheet);
  const auto words = bench.run("faults");
  CHECK_MESSAGE(words.status == 0, words.talk);
  CHECK(contains(words.out, "single faults tried"));
  CHECK(contains(words.out, "wall: plug reversed"));
  CHECK(contains(words.out, "Never try a short circuit"));
  const auto json = tideover::service::read_json(bench.run("faults --json").out);
  REQUIRE(json);
  const auto* const faults = json.value().find("faults")->list();
  REQUIRE(faults != nullptr);
  CHECK(static_cast<double>(faults->size()) == json.value().find("faults_in_all")->number());
  // Mains gone, nothing carries the lamp: two leads come off or lose a screw, and more.
  CHECK(faults->size() > 8);
  CHECK_FALSE(fs::exists(bench.root() / "out"));
}

TEST_CASE("a value can be set for one call, and a path that is not there is status 2") {
  const Workbench bench;
  bench.put("sheet.toml", bare_sheet);
  const auto wide = bench.run("faults --set 'lamp.accepts=5 V to 40 V'");
  CHECK_MESSAGE(wide.status == 0, wide.talk);
  CHECK(wide.out != bench.run("faults").out);
  for (const std::string verb : {"faults", "predict", "report"}) {
    const auto ran = bench.run(verb + " --set 'lamp.accept=5 V to 40 V'");
    CHECK(ran.status == 2);
    CHECK(ran.out.empty());
    CHECK(contains(ran.talk, "accept"));
  }
  CHECK_FALSE(fs::exists(bench.root() / "out"));
}

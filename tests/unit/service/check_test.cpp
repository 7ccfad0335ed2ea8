// `check`: findings for people and for programs.
#include <algorithm>
#include <filesystem>

#include <doctest/doctest.h>

#include "base/file.hpp"
#include "service/finding_lines.hpp"
#include "service/findings_json.hpp"
#include "service/verb.hpp"
#include "support/beacon.hpp"

using namespace tideover;
namespace fs = std::filesystem;

namespace {

// A prediction of which nothing but the verdict is known.
question::Prediction judged(const build::Build& build) {
  const test::BeaconRun run;
  question::Prediction found{.usual = question::trial_of(run.record(), {}),
                             .worn = question::trial_of(run.record(), {}),
                             .hot = question::trial_of(run.record(), {})};
  found.verdict = question::judge({build, found.usual, found.worn, found.hot, {}});
  return found;
}

bool has_line(const std::vector<service::Line>& lines, const std::string& words) {
  return std::ranges::any_of(
      lines, [&](const service::Line& line) { return line.words.starts_with(words); });
}

// The whole verb, on a beacon in a folder of its own.
service::Reply check_beacon(const test::Changes& changes) {
  const fs::path folder = fs::temp_directory_path() / "tideover-check-beacon";
  fs::create_directories(folder);
  REQUIRE(base::write_file(folder / "sheet.toml", test::beacon_sheet(changes)).empty());
  base::NoProgress nobody;
  return service::answer({.verb = "check", .folder = folder}, nobody);
}

}  // namespace

TEST_CASE("findings come worst first, each with figures, advice, rule and caution") {
  const auto build = test::beacon({{"charger.voltage", "'12.675 V'"}});
  const auto lines = service::finding_lines(build, judged(build));
  REQUIRE(lines.size() > 8);
  CHECK(lines[2].words.starts_with("fails   charger charges each cell of pack to 4.225 V"));
  CHECK(lines[3].words == "        comes to 4.225 V, limit 4.2 V, exceeded by 0.6 %");
  CHECK(lines[4].words == "        To change: charger: voltage = 12.6 V or less.");
  CHECK(lines[5].words.starts_with("        Rule: Set the charger to no more than"));
  CHECK(lines[6].words.find("IEC 62133-2") != std::string::npos);
  CHECK(lines[7].words.starts_with("        Caution: An overcharged lithium cell burns."));
  CHECK(lines.back().words.starts_with("holds   "));
}

TEST_CASE("a rule is explained once, however many findings it has") {
  const auto build = test::beacon({{"charger.voltage", "'13 V'"}});
  const auto lines = service::finding_lines(build, judged(build));
  const auto explained = std::ranges::count_if(lines, [](const service::Line& line) {
    return line.words.starts_with("        Rule: Set the charger");
  });
  CHECK(explained == 1);
}

TEST_CASE("programs get every finding with its figures in a unit that is named") {
  const auto build = test::beacon();
  const auto json = service::findings_json(judged(build).verdict.findings);
  REQUIRE(json.list() != nullptr);
  const auto spare = std::ranges::find_if(*json.list(), [](const service::Json& one) {
    return *one.find("rule")->text() == "charger_spare";
  });
  REQUIRE(spare != json.list()->end());
  CHECK(*spare->find("part")->text() == "charger");
  CHECK(*spare->find("answer")->text() == "holds");
  CHECK(*spare->find("limit")->find("unit")->text() == "A");
  CHECK(spare->find("limit")->find("value")->number() ==
        doctest::Approx(2.0 - 8.4 / 23.28).epsilon(1e-6));
  CHECK_FALSE(spare->find("words")->text()->empty());
}

TEST_CASE("a sound beacon gives status 0, one whose charger is set too high 1") {
  // Needs are for `predict`: nobody outlasts a month here.
  const service::Reply sound = check_beacon({{"needs.outlast", "'30 d'"}});
  CHECK(sound.status == service::Status::Met);
  CHECK_FALSE(has_line(sound.lines, "fails"));
  const service::Reply fails = check_beacon({{"charger.voltage", "'12.7 V'"}});
  CHECK(fails.status == service::Status::NotMet);
  CHECK(has_line(fails.lines, "fails   charger charges each cell of pack to 4.233 V"));
}

// What holds of every rule, and what all of them say of sound builds.
#include <cmath>
#include <set>

#include <doctest/doctest.h>

#include "build/read_sheet.hpp"
#include "finding/rules.hpp"
#include "run/run.hpp"
#include "shelf/shelf.hpp"
#include "support/beacon.hpp"
#include "support/places.hpp"
#include "support/random_build.hpp"

using namespace tideover;
using namespace tideover::finding;

namespace {

void expect_sound(const std::vector<Found>& all) {
  for (const Found& found : all) {
    INFO(found.rule->key, ": ", found.finding.sentence);
    CHECK(found.finding.answer != Answer::Fails);
    if (found.finding.answer == Answer::Unknown) CHECK_FALSE(found.finding.unknown.empty());
    if (found.finding.answer != Answer::Unknown && found.finding.answer != Answer::Classed) {
      CHECK(found.finding.measured.has_value());
    }
  }
}

}  // namespace

TEST_CASE("every rule has a key of its own, words, a formula and a source") {
  std::set<std::string_view> keys;
  for (const Rule& rule : all_rules()) {
    INFO(rule.key);
    CHECK(keys.insert(rule.key).second);
    CHECK(find_rule(rule.key) == &rule);
    CHECK_FALSE(rule.title.empty());
    CHECK(rule.words.ends_with("."));
    CHECK_FALSE(rule.formula.empty());
    CHECK_FALSE(rule.source.empty());
    CHECK(static_cast<bool>(rule.ask));
  }
  CHECK(find_rule("no_such_rule") == nullptr);
}

TEST_CASE("given the sheet of a sound beacon alone, nothing fails") {
  const auto build = test::beacon();
  expect_sound(check({build, {}}));
}

TEST_CASE("given the tide hut and a stormy hour, nothing fails") {
  const auto read =
      build::read_sheet_file(test::examples_dir() / "tide-hut", shelf::built_in_shelf());
  REQUIRE(read);
  build::Timeline timeline = read.value().timelines.back();
  base::NoProgress nobody;
  const run::Record record = run::run(read.value(), timeline, {}, {}, nobody);
  expect_sound(check({read.value(), {{"sweeping", {}, &record}}}));
}

TEST_CASE("what can do harm comes first, and what holds last") {
  const auto build = test::beacon({{"charger.voltage", "'13 V'"}, {"up24.rated", "'0.42 A'"}});
  const auto all = check({build, {}});
  REQUIRE(all.size() > 3);
  CHECK(all.front().finding.answer == Answer::Fails);
  CHECK(all.front().rule->is_harm);
  CHECK(all.back().finding.answer == Answer::Holds);
}

TEST_CASE("of 200 random builds every finding has a number, or says why it has none") {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    INFO("seed ", seed);
    const auto build = test::RandomBuild(seed).build();
    for (const Found& found : check({build, {}})) {
      INFO(found.rule->key, ": ", found.finding.sentence);
      const Finding& finding = found.finding;
      CHECK_FALSE(finding.part.empty());
      CHECK(finding.sentence.find("nan") == std::string::npos);
      CHECK(finding.sentence.find("not a number") == std::string::npos);
      CHECK(finding.sentence.find("infinite") == std::string::npos);
      if (finding.answer == Answer::Fails) CHECK_FALSE(finding.advice.empty());
      if (finding.answer == Answer::Unknown) {
        CHECK_FALSE(finding.unknown.empty());
      } else if (finding.answer != Answer::Classed) {
        REQUIRE(finding.measured.has_value());
        CHECK(std::isfinite(finding.measured->value_si));
      }
    }
  }
}

// Five hundred builds that nobody chose: each comes to an end, adds up, and every finding about it
// has its number. The seed is part of each message.
#include <cmath>

#include <doctest/doctest.h>

#include "finding/rules.hpp"
#include "run/run.hpp"
#include "support/random_build.hpp"
#include "support/random_share.hpp"

namespace {

using namespace tideover;

/// What a run may take: a day of bursts with a hiccup now and then has some ten thousand steps.
constexpr long most_steps = 200'000;

void check_numbers(const build::Build& build, const run::Record& record) {
  for (const finding::Found& found : finding::check({build, {{"as built", {}, &record}}})) {
    const finding::Finding& one = found.finding;
    INFO(found.rule->key, ": ", one.sentence);
    CHECK(one.sentence.find("nan") == std::string::npos);
    CHECK(one.sentence.find("not a number") == std::string::npos);
    CHECK(one.sentence.find("infinite") == std::string::npos);
    if (one.measured) CHECK(std::isfinite(one.measured->value_si));
    if (one.margin) CHECK(std::isfinite(*one.margin));
    if (one.answer == finding::Answer::Unknown) CHECK_FALSE(one.unknown.empty());
    if (one.answer == finding::Answer::Fails) CHECK_FALSE(one.advice.empty());
  }
}

}  // namespace

TEST_CASE("500 random builds: each run ends, adds up, and its findings have numbers") {
  for (const std::uint64_t seed : test::seeds(5001, 5500)) {
    CAPTURE(seed);
    const test::RandomBuild random =
        seed % 2 == 0 ? test::RandomBuild(seed) : test::odd_build(seed);
    const build::Build build = random.build();
    base::NoProgress nobody;
    const run::Record record =
        run::run(build, build.timelines.front(),
                 {.ambient = quantity::Temperature::of_celsius(random.ambient_c)},
                 {.settles = quantity::Second::of_si(7200.0)}, nobody);
    CAPTURE(record.outcome.why);
    const bool is_restless = record.outcome.ended == hybrid::Ended::Restless;
    CHECK((record.outcome.ended == hybrid::Ended::AtTime || is_restless));
    CHECK((!is_restless || !record.outcome.why.empty()));
    CHECK(record.books.open_share < 1e-5);
    CHECK(record.statistics.steps < most_steps);
    check_numbers(build, record);
  }
}

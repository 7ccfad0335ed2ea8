// Every rule asked of random but plausible sheets: an answer each, with its numbers.
#include <cmath>
#include <string>

#include <doctest/doctest.h>

#include "finding/rules.hpp"
#include "support/random_build.hpp"

using namespace tideover;
using namespace tideover::finding;

namespace {

bool is_finite(const std::optional<Figure>& figure) {
  return !figure || std::isfinite(figure->value_si);
}

void expect_answer(const Found& found) {
  const Finding& finding = found.finding;
  CAPTURE(found.rule->key);
  CAPTURE(finding.sentence);
  CAPTURE(finding.advice);
  CHECK_FALSE(finding.part.empty());
  CHECK(finding.sentence.ends_with("."));
  CHECK(is_finite(finding.measured));
  CHECK(is_finite(finding.limit));
  CHECK(finding.sentence.find("not a number") == std::string::npos);
  CHECK(finding.advice.find("not a number") == std::string::npos);
  CHECK(finding.advice.find("infinite") == std::string::npos);
  if (finding.answer == Answer::Fails) {
    CHECK(finding.measured.has_value());
    CHECK(finding.advice.ends_with("."));
  }
  if (finding.answer == Answer::Unknown) CHECK_FALSE(finding.unknown.empty());
}

}  // namespace

TEST_CASE("given 100 random sheets, every rule answers with numbers and advice") {
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    const build::Build build = test::RandomBuild(seed).build();
    CAPTURE(seed);
    for (const Found& found : check({build, {}})) expect_answer(found);
  }
}

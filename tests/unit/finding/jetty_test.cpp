// The jetty is sound: what the rules of protection say of it as it stands.
#include "support/jetty.hpp"

#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "finding/rules.hpp"

using namespace tideover;
using namespace tideover::finding;

TEST_CASE("no rule that the sheet alone decides has anything against the jetty") {
  const build::Build build = test::jetty();
  for (const Found& found : check({build, {}})) {
    CAPTURE(found.rule->key);
    CAPTURE(found.finding.sentence);
    CHECK(found.finding.answer != Answer::Fails);
    CHECK(found.finding.answer != Answer::Unknown);
    CHECK_FALSE(found.finding.sentence.empty());
    if (found.finding.answer != Answer::Classed) CHECK(found.finding.measured.has_value());
  }
}

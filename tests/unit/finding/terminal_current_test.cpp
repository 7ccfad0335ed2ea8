// Clamps carry what they are rated for.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"
#include "support/jetty.hpp"

using namespace tideover;
using namespace tideover::finding;
using quantity::Ampere;

namespace {

// Carried for hours while the mains is away.
Finding with(double carried_a, test::JettyChanges changes = {}) {
  const auto run = test::BeaconRun().channel("bar", "current of the busiest clamp",
                                             Ampere::dimension, 0.1, carried_a);
  return test::about(test::ask(terminal_current(), test::jetty(changes), {run.record()}), "bar");
}

}  // namespace

TEST_CASE("bar carries what it is rated for, and not 2 % more") {
  CHECK(with(5.0).answer == Answer::Holds);
  CHECK(with(9.8).answer == Answer::Tight);
  const Finding finding = with(10.2);
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si == doctest::Approx(10.2));
  CHECK(finding.limit->value_si == doctest::Approx(10.0));
  CHECK(finding.advice == "bar: rated = 12 A or more.");
  CHECK(with(10.2, {{"bar.rated", "'12 A'"}}).answer == Answer::Holds);
}

TEST_CASE("given no rating of bar, it is asked for") {
  const Finding finding = with(5.0, {{"bar.rated", ""}});
  CHECK(finding.answer == Answer::Unknown);
  CHECK(finding.unknown == std::vector<std::string>{"bar.rated"});
}

TEST_CASE("what the runs watched and saw exceeded bar does not stand, however short it was") {
  auto run =
      test::BeaconRun().channel("bar", "current of the busiest clamp", Ampere::dimension, 0.1, 0.2);
  run.record().highest[0].value_si = 40.0;
  run.overload("bar", "clamp current", "current of the busiest clamp", 10.0, 40.0);
  const Finding finding =
      test::about(test::ask(terminal_current(), test::jetty(), {run.record()}), "bar");
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si == doctest::Approx(40.0));
}

TEST_CASE("without a run nothing is known of the current of bar") {
  for (const Finding& finding : test::ask_jetty(terminal_current())) {
    CHECK(finding.part != "bar");
  }
}

// Switches carry what they are rated for.
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
  const auto run = test::BeaconRun().channel("main", "current", Ampere::dimension, 0.1, carried_a);
  return test::about(test::ask(switch_current(), test::jetty(changes), {run.record()}), "main");
}

}  // namespace

TEST_CASE("main carries what it is rated for, and not 2 % more") {
  CHECK(with(3.0).answer == Answer::Holds);
  CHECK(with(5.88).answer == Answer::Tight);
  const Finding finding = with(6.12);
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si == doctest::Approx(6.12));
  CHECK(finding.limit->value_si == doctest::Approx(6.0));
  CHECK(finding.advice == "main: rated = 6.9 A or more.");
  CHECK(with(6.12, {{"main.rated", "'6.9 A'"}}).answer == Answer::Holds);
}

TEST_CASE("given no rating of main, it is asked for") {
  const Finding finding = with(3.0, {{"main.rated", ""}});
  CHECK(finding.answer == Answer::Unknown);
  CHECK(finding.unknown == std::vector<std::string>{"main.rated"});
}

TEST_CASE("what the runs watched and saw exceeded main does not stand, however short it was") {
  auto run = test::BeaconRun().channel("main", "current", Ampere::dimension, 0.1, 0.2);
  run.record().highest[0].value_si = 24.0;
  run.overload("main", "contact current", "current", 6.0, 24.0);
  const Finding finding =
      test::about(test::ask(switch_current(), test::jetty(), {run.record()}), "main");
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si == doctest::Approx(24.0));
}

TEST_CASE("without a run nothing is known of the current of main") {
  for (const Finding& finding : test::ask_jetty(switch_current())) {
    CHECK(finding.part != "main");
  }
}

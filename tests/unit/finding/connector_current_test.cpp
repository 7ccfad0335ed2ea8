// Plugs carry what they are rated for.
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
  const auto run = test::BeaconRun().channel("jack", "current of the busiest contact",
                                             Ampere::dimension, 0.1, carried_a);
  return test::about(test::ask(connector_current(), test::jetty(changes), {run.record()}), "jack");
}

}  // namespace

TEST_CASE("jack carries what it is rated for, and not 2 % more") {
  CHECK(with(2.5).answer == Answer::Holds);
  CHECK(with(4.9).answer == Answer::Tight);
  const Finding finding = with(5.1);
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si == doctest::Approx(5.1));
  CHECK(finding.limit->value_si == doctest::Approx(5.0));
  CHECK(finding.advice == "jack: rated = 5.7 A or more.");
  CHECK(with(5.1, {{"jack.rated", "'5.7 A'"}}).answer == Answer::Holds);
}

TEST_CASE("given no rating of jack, it is asked for") {
  const Finding finding = with(2.5, {{"jack.rated", ""}});
  CHECK(finding.answer == Answer::Unknown);
  CHECK(finding.unknown == std::vector<std::string>{"jack.rated"});
}

TEST_CASE("what the runs watched and saw exceeded jack does not stand, however short it was") {
  auto run = test::BeaconRun().channel("jack", "current of the busiest contact", Ampere::dimension,
                                       0.1, 0.2);
  run.record().highest[0].value_si = 20.0;
  run.overload("jack", "contact current", "current of the busiest contact", 5.0, 20.0);
  const Finding finding =
      test::about(test::ask(connector_current(), test::jetty(), {run.record()}), "jack");
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si == doctest::Approx(20.0));
}

TEST_CASE("without a run nothing is known of the current of jack") {
  for (const Finding& finding : test::ask_jetty(connector_current())) {
    CHECK(finding.part != "jack");
  }
}

// Diodes carry what they are rated for.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"
#include "support/jetty.hpp"

using namespace tideover;
using namespace tideover::finding;
using quantity::Ampere;

namespace {

// A diode in the way to the horn.
test::JettyChanges with_diode(test::JettyChanges changes = {}) {
  changes.insert({{"d_horn.kind", "'diode'"},
                  {"d_horn.rated", "'3 A'"},
                  {"leads.horn_plus.between", "['d_horn.cathode', 'horn.plus']"},
                  {"leads.horn_diode.between", "['swap.common', 'd_horn.anode']"},
                  {"leads.horn_diode.size", "'0.75 mm2'"},
                  {"leads.horn_diode.length", "'100 mm'"}});
  return changes;
}

// Carried for hours while the mains is away.
Finding with(double carried_a, test::JettyChanges changes = {}) {
  const auto run =
      test::BeaconRun().channel("d_horn", "current", Ampere::dimension, 0.1, carried_a);
  return test::about(test::ask(diode_current(), test::jetty(with_diode(changes)), {run.record()}),
                     "d_horn");
}

}  // namespace

TEST_CASE("d_horn carries what it is rated for, and not 2 % more") {
  CHECK(with(1.5).answer == Answer::Holds);
  CHECK(with(2.94).answer == Answer::Tight);
  const Finding finding = with(3.06);
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si == doctest::Approx(3.06));
  CHECK(finding.limit->value_si == doctest::Approx(3.0));
  CHECK(finding.advice == "d_horn: rated = 3.5 A or more.");
  CHECK(with(3.06, {{"d_horn.rated", "'3.5 A'"}}).answer == Answer::Holds);
}

TEST_CASE("given no rating of d_horn, it is asked for") {
  const Finding finding = with(1.5, {{"d_horn.rated", ""}});
  CHECK(finding.answer == Answer::Unknown);
  CHECK(finding.unknown == std::vector<std::string>{"d_horn.rated"});
}

TEST_CASE("what the runs watched and saw exceeded d_horn does not stand, however short it was") {
  auto run = test::BeaconRun().channel("d_horn", "current", Ampere::dimension, 0.1, 0.2);
  run.record().highest[0].value_si = 12.0;
  run.overload("d_horn", "forward current", "current", 3.0, 12.0);
  const Finding finding =
      test::about(test::ask(diode_current(), test::jetty(with_diode()), {run.record()}), "d_horn");
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si == doctest::Approx(12.0));
}

TEST_CASE("without a run nothing is known of the current of d_horn") {
  for (const Finding& finding : test::ask_jetty(diode_current(), with_diode())) {
    CHECK(finding.part != "d_horn");
  }
}

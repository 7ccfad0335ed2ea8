// A hot relay picks up again.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"
#include "support/jetty.hpp"

using namespace tideover;
using namespace tideover::finding;
using quantity::Temperature;
using test::about;
using test::ask_jetty;
using test::JettyChanges;

namespace {

// No diodes before the coil; in a run the coil got as warm as is said.
Finding at(double coil_celsius, JettyChanges changes) {
  changes.insert({{"swap.series_diodes", "0"},
                  {"swap.winding_resistance", "'1 K/W'"},
                  {"swap.body_resistance", "'1 K/W'"}});
  const double hot_k = Temperature::of_celsius(coil_celsius).si();
  const auto run = test::BeaconRun().channel("swap", "coil temperature", Temperature::dimension,
                                             hot_k, 290.0, true);
  return about(test::ask(relay_pick_up(), test::jetty(changes), {run.record()}), "swap");
}

const JettyChanges nine_volts{{"swap.pick_up", ""}, {"swap.reference", "'20 degC'"}};

}  // namespace

TEST_CASE("pick-up voltage goes with the ohms of copper") {
  // 13.0 V at 25 degC is 18.0 V at 125 degC: a relay maker's note (read).
  const JettyChanges thirteen{
      {"swap.pick_up", "'13 V'"}, {"swap.reference", "'25 degC'"}, {"swap.coil_rated", "'24 V'"}};
  CHECK(at(125.0, thirteen).measured->value_si == doctest::Approx(18.01).epsilon(1e-3));
  // 6.5 V at 20 degC is 7.52 V at 60 degC: inputs of a relay maker's note (read), computed.
  const JettyChanges six{{"swap.pick_up", "'6.5 V'"}, {"swap.reference", "'20 degC'"}};
  CHECK(at(60.0, six).measured->value_si == doctest::Approx(7.52).epsilon(1e-3));
}

TEST_CASE("given 75 % cold and a coil at 110 degC, a rail of 12.0 V does not pull again") {
  // 10.77 V at 70 degC and 12.18 V at 110 degC, computed from the copper rule of IEC 61810-1.
  auto changes = nine_volts;
  changes["shore.output"] = "'12 V'";
  CHECK(at(70.0, changes).measured->value_si == doctest::Approx(10.77).epsilon(1e-3));
  const Finding finding = at(110.0, changes);
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si == doctest::Approx(12.18).epsilon(1e-3));
  CHECK(finding.limit->value_si == doctest::Approx(12.0));
  CHECK(finding.advice == "swap: pick_up = 7.9 V or less.");
  changes["swap.pick_up"] = "'7.9 V'";
  CHECK(at(110.0, changes).answer == Answer::Holds);
}

TEST_CASE("a rail 1 % above what the hot coil needs just does") {
  auto changes = nine_volts;
  changes["shore.output"] = "'12.3 V'";
  CHECK(at(110.0, changes).answer == Answer::Tight);
  changes["shore.output"] = "'12.3 V +/- 2 %'";
  CHECK(at(110.0, changes).answer == Answer::Fails);
}

TEST_CASE("without a run the coil is taken as warm as it gets for good") {
  const auto with = [](const char* winding) {
    return ask_jetty(relay_pick_up(), "swap", {{"swap.winding_resistance", winding}});
  };
  CHECK(with("'25 K/W'").answer == Answer::Holds);
  CHECK(with("'250 K/W'").measured->value_si > with("'25 K/W'").measured->value_si);
  CHECK(with("'1000 K/W'").answer == Answer::Fails);
}

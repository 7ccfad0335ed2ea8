// Contacts of a relay: current and voltage.
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
  const auto run =
      test::BeaconRun().channel("swap", "contact current", Ampere::dimension, 0.1, carried_a);
  return test::ask(relay_contact(), test::jetty(changes), {run.record()}).at(1);
}

}  // namespace

TEST_CASE("swap carries what it is rated for, and not 2 % more") {
  CHECK(with(1.5).answer == Answer::Holds);
  CHECK(with(2.94).answer == Answer::Tight);
  const Finding finding = with(3.06);
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si == doctest::Approx(3.06));
  CHECK(finding.limit->value_si == doctest::Approx(3.0));
  CHECK(finding.advice == "swap: contact_rated = 3.5 A or more.");
  CHECK(with(3.06, {{"swap.contact_rated", "'3.5 A'"}}).answer == Answer::Holds);
}

TEST_CASE("given no rating of swap, it is asked for") {
  const Finding finding = with(1.5, {{"swap.contact_rated", ""}});
  CHECK(finding.answer == Answer::Unknown);
  CHECK(finding.unknown == std::vector<std::string>{"swap.contact_rated"});
}

TEST_CASE("what the runs watched and saw exceeded swap does not stand, however short it was") {
  auto run = test::BeaconRun().channel("swap", "contact current", Ampere::dimension, 0.1, 0.2);
  run.record().highest[0].value_si = 12.0;
  run.overload("swap", "contact current", "contact current", 3.0, 12.0);
  const Finding finding = test::ask(relay_contact(), test::jetty(), {run.record()}).at(1);
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si == doctest::Approx(12.0));
}

TEST_CASE("without a run nothing is known of the current of swap") {
  CHECK(test::ask_jetty(relay_contact()).size() == 1);
}

TEST_CASE("contacts break the highest voltage at either throw, or just do not") {
  // The step-up sets 12.6 V +/- 1 %.
  const auto at = [](const char* voltage) {
    return test::ask_jetty(relay_contact(), "swap", {{"swap.contact_voltage", voltage}});
  };
  CHECK(at("'12.8 V'").answer == Answer::Holds);
  const Finding finding = at("'12.6 V'");
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si == doctest::Approx(12.726));
  CHECK(finding.advice == "swap: contact_voltage = 13 V or more.");
  CHECK(at("'13 V'").answer == Answer::Holds);
  CHECK(at("").answer == Answer::Unknown);
  CHECK(at("").unknown == std::vector<std::string>{"swap.contact_voltage"});
}

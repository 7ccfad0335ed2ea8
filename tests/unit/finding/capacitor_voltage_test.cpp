// The voltage a capacitor is made for.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"
#include "support/jetty.hpp"

using namespace tideover;
using namespace tideover::finding;
using test::ask_jetty;

namespace {

Finding with(const char* rated) {
  return ask_jetty(capacitor_voltage(), "smooth", {{"smooth.rated", rated}});
}

}  // namespace

TEST_CASE("a capacitor stands the full pack, or just does not") {
  CHECK(with("'16 V'").answer == Answer::Holds);
  CHECK(with("'12.8 V'").answer == Answer::Tight);
  const Finding finding = with("'12.5 V'");
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si == doctest::Approx(12.6));
  CHECK(finding.advice == "smooth: rated = 16 V or more.");
}

TEST_CASE("peaks of a run count as well") {
  const auto run =
      test::BeaconRun().channel("smooth", "voltage", quantity::Volt::dimension, 12.0, 26.0);
  const auto found = test::ask(capacitor_voltage(), test::jetty(), {run.record()});
  REQUIRE(found.size() == 1);
  CHECK(found[0].answer == Answer::Fails);
  CHECK(found[0].measured->value_si == doctest::Approx(26.0));
  CHECK(found[0].advice == "smooth: rated = 35 V or more.");
}

// What a lead carries for good.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"
#include "support/jetty.hpp"

using namespace tideover;
using namespace tideover::finding;
using quantity::Ampere;

namespace {

Finding with(double carried_a, test::JettyChanges changes = {}) {
  const auto run =
      test::BeaconRun().channel("leads.pack_fused", "current", Ampere::dimension, 0.1, carried_a);
  const auto found = test::ask(lead_ampacity(), test::jetty(changes), {run.record()});
  REQUIRE(found.size() == 1);
  return found[0];
}

}  // namespace

TEST_CASE("0.75 mm2 in a bundle carries 9 A at 30 degC, and not 2 % more") {
  // VDE 0298-4, group 1, as restated by kochkt.ch (read).
  CHECK(with(8.0).answer == Answer::Holds);
  CHECK(with(8.9).answer == Answer::Tight);
  const Finding finding = with(9.18);
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.limit->value_si == doctest::Approx(9.0));
  CHECK(finding.advice == "leads.pack_fused: size = 1 mm2 or more.");
  CHECK(with(9.18, {{"leads.pack_fused.size", "'1 mm2'"}}).answer == Answer::Holds);
}

TEST_CASE("at its ampacity it is as warm as its insulation stands") {
  CHECK(with(9.0).sentence.find("warms it to 70 degC") != std::string::npos);
}

TEST_CASE("current the other way warms it as well") { CHECK(with(-9.18).answer == Answer::Fails); }

TEST_CASE("air of 50 degC leaves 0.71 of it") {
  CHECK(with(1.0, {{"needs.ambient", "'0 degC to 50 degC'"}}).limit->value_si ==
        doctest::Approx(9.0 * 0.7071).epsilon(1e-4));
}

// The junction of a diode.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover;
using namespace tideover::finding;
using quantity::Temperature;

namespace {

Finding at(double celsius, test::Changes changes = {}) {
  changes["d_pack.hottest"] = "'125 degC'";
  const auto run =
      test::BeaconRun().channel("d_pack", "junction temperature", Temperature::dimension, 300.0,
                                Temperature::of_celsius(celsius).si(), true);
  const auto found = test::ask(diode_heat(), test::beacon(changes), {run.record()});
  REQUIRE(found.size() == 1);
  return found[0];
}

}  // namespace

TEST_CASE("a junction below its limit holds, near it is tight, above it fails") {
  CHECK(at(80.0).answer == Answer::Holds);
  CHECK(at(124.0).answer == Answer::Tight);
  const Finding finding = at(126.0);
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.part == "d_pack");
  CHECK(*finding.margin == doctest::Approx(-0.01));
  CHECK(finding.sentence.starts_with("The junction of d_pack comes to 126 degC"));
}

TEST_CASE("the heat path that is advised brings the rise down to nine tenths of what is left") {
  const Finding finding = at(126.0);
  // 101 K by 89 % are 89.9 K of the 100 K allowed.
  CHECK(finding.advice.starts_with("d_pack: body_resistance = 89 % of what it is or less"));
  CHECK(at(25.0 + 0.89 * 101.0).answer == Answer::Holds);
}

TEST_CASE("without a run nothing is known of a junction") {
  CHECK(test::ask(diode_heat()).empty());
}

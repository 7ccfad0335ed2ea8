// A relay that follows the mains lets go in time.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include "finding/rule_list.hpp"
#include "support/jetty.hpp"

using namespace tideover::finding;
using tideover::test::ask_jetty;
using tideover::test::JettyChanges;

namespace {

Finding with(double horn_lowest_v, JettyChanges changes = {}) {
  changes["horn.accepts"] = fmt::format("'{} V to 15 V'", horn_lowest_v);
  return ask_jetty(relay_release(), "swap", changes);
}

}  // namespace

TEST_CASE("without diodes a coil lets go at its release voltage") {
  // At its reference temperature, so that copper changes nothing.
  const JettyChanges bare{{"swap.series_diodes", "0"}, {"needs.ambient", "'23 degC to 30 degC'"}};
  CHECK(with(1.0, bare).measured->value_si == doctest::Approx(3.0));
}

TEST_CASE("diodes before the coil raise the rail at which it lets go") {
  // Four silicon junctions at 7 mA: 0.6 V to 0.7 V each.
  const double lets_go_v = with(1.0).measured->value_si;
  CHECK(lets_go_v > 2.7 + 4 * 0.6);
  CHECK(lets_go_v < 3.0 + 4 * 0.75);
}

TEST_CASE("a load that works down to just below that is carried, one just above is not") {
  const double lets_go_v = with(1.0).measured->value_si;
  CHECK(with(0.98 * lets_go_v).answer == Answer::Tight);
  const Finding finding = with(1.02 * lets_go_v);
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.limit->value_si == doctest::Approx(1.02 * lets_go_v));
  CHECK(finding.advice.starts_with("swap: series_diodes = 5 or more, or release = "));
  CHECK(with(1.02 * lets_go_v, {{"swap.series_diodes", "5"}}).answer == Answer::Holds);
}

TEST_CASE("the release that is advised in place of diodes does as well") {
  const Finding finding = with(6.0);
  const std::size_t at = finding.advice.find("release = ");
  REQUIRE(at != std::string::npos);
  const std::string release =
      finding.advice.substr(at + 10, finding.advice.find(" V", at) - at - 8);
  CHECK(with(6.0, {{"swap.release", "'" + release + "'"}}).answer == Answer::Holds);
}

TEST_CASE("a coil that the pack reaches backwards never lets go") {
  const auto found = ask_jetty(
      relay_release(), {{"charger.topology", "'step-down'"}, {"charger.blocks_back", "false"}});
  REQUIRE(found.size() == 2);
  CHECK(found[1].answer == Answer::Fails);
  CHECK(found[1].measured->value_si == doctest::Approx(12.6 - 0.7));
  CHECK(found[1].advice.find("from pack to swap.coil_plus") != std::string::npos);
  CHECK(ask_jetty(relay_release(),
                  {{"charger.topology", "'step-down'"}, {"charger.blocks_back", "true"}})
            .size() == 1);
}

// A pack on the shelf.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include "finding/rule_list.hpp"
#include "support/jetty.hpp"

using namespace tideover::finding;
using tideover::test::ask_jetty;
using tideover::test::JettyChanges;

namespace {

constexpr double month_s = 30.0 * 86400.0;

// Cells of 2.9 Ah that lose nothing by themselves are too good to be true; so the air is cold.
Finding with(double drain_ua, JettyChanges changes = {}) {
  changes["board.drain"] = fmt::format("'{} uA'", drain_ua);
  return ask_jetty(storage_discharge(), "pack", changes);
}

}  // namespace

TEST_CASE("half a pack over what is drawn and lost is how long it lasts") {
  const double at_10_s = with(10.0).measured->value_si;
  const double at_110_s = with(110.0).measured->value_si;
  // 1/t is a straight line in the drain: 100 uA over half of two cells of 2.9 Ah.
  const double half_c = 100e-6 / (1.0 / at_110_s - 1.0 / at_10_s);
  CHECK(half_c / 3600.0 == doctest::Approx(2.9).epsilon(0.05));
  CHECK(with(10.0).limit->value_si == doctest::Approx(6.0 * month_s));
}

TEST_CASE("a drain that just lasts until someone looks is tight, 2 % more of it all is too much") {
  const double at_10 = 1.0 / with(10.0).measured->value_si;
  const double per_ua = (1.0 / with(110.0).measured->value_si - at_10) / 100.0;
  const double just_ua = 10.0 + (1.0 / (6.0 * month_s) - at_10) / per_ua;
  CHECK(with(0.98 * just_ua).answer == Answer::Tight);
  const Finding finding = with(1.02 * just_ua);
  CHECK(finding.answer == Answer::Fails);
  const std::string start = "board: drain = ";
  REQUIRE(finding.advice.starts_with(start));
  const double advised_ua = std::stod(finding.advice.substr(start.size()));
  CHECK(with(advised_ua).answer == Answer::Holds);
}

TEST_CASE("what stands before the switch goes on drawing, what stands behind it does not") {
  const Finding switched = with(20.0);
  CHECK(switched.answer == Answer::Holds);
  const Finding before = with(20.0, {{"leads.up12_plus.between", "['f_pack.b', 'up12.in_plus']"}});
  CHECK(before.answer == Answer::Fails);
  CHECK(before.advice.starts_with("up12: idle_draw = "));
}

TEST_CASE("a warm shed empties it sooner") {
  CHECK(with(20.0, {{"needs.ambient", "'0 degC to 40 degC'"}}).measured->value_si <
        0.8 * with(20.0).measured->value_si);
}

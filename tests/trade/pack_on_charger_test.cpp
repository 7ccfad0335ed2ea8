// A four-series pack on its charger, its board and a bench: readings of a practitioner; common
// practice, no source. Thresholds and bleed come from the shelf's class of such boards.
#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "finding/rules.hpp"
#include "trade/small_build.hpp"

using tideover::test::leads;
using tideover::test::SmallRun;

namespace {

constexpr double minute_s = 60.0;
constexpr double hour_s = 3600.0;
/// What an event itself does to the voltages is not meant.
constexpr double just_before_s = 0.01;

/// Charges of the four groups in percent. How nearly full the pack was is not on record: in each
/// test the charge is one from which it starts as was read.
std::string nearly_full_pack(const std::string& groups) {
  return R"([parts.pack]
kind = "pack"
cell = "shelf:nmc-18650-2800"
series = 4
groups = [)" +
         groups + R"(]
[parts.board]
kind = "protection-board"
from = "shelf:nickel-rich-four-groups-bleeding-15a"
)";
}

std::string pack_leads() {
  return leads(
      "pack.minus - board.b_minus, pack.plus - board.b_plus, pack.tap1 - board.tap1, pack.tap2 - "
      "board.tap2, pack.tap3 - board.tap3");
}

/// Charger at 16.9 V; a lamp that a switch joins to the pack.
std::string on_charger(const std::string& groups, const std::string& stretches) {
  return R"([parts.drain]
kind = "switch"
start = 0
[parts.mains]
kind = "adapter"
from = "shelf:brick-19v-65w"
[parts.lamp]
kind = "load"
accepts = "8 V to 20 V"
draws_resistance = "30 Ohm"
[parts.blocking]
kind = "ideal-diode"
from = "shelf:module-5a"
[parts.charger]
kind = "charger"
from = "shelf:adjusted-step-down"
voltage = { value = "16.9 V", origin = "measured" }
)" + nearly_full_pack(groups) +
         "[leads]\n" + pack_leads() +
         leads(
             "mains.plus - charger.in_plus, charger.in_minus - mains.minus, charger.out_plus - "
             "blocking.anode, blocking.cathode - pack.plus, blocking.minus - mains.minus, "
             "board.p_minus - mains.minus, pack.plus - drain.common, drain.way1 - lamp.plus, "
             "lamp.minus - board.p_minus") +
         "[start]\nsettled = false\n" + stretches;
}

std::string stretch(const std::string& what, const std::string& lasts) {
  return "[[timelines.bench.stretch]]\n" + what + "\nlasts = \"" + lasts + "\"\n";
}

const std::string charging = "mains = \"present\"\nswitches = { drain = 0 }";
const std::string drained = "mains = \"absent\"\nswitches = { drain = 1 }";
const std::string at_rest = "mains = \"absent\"\nswitches = { drain = 0 }";

double charge_a(const SmallRun& run, double time_s) {
  return run.at(time_s, "charger", "output current");
}

}  // namespace

TEST_CASE("a nearly full four-series pack at 16.9 V starts at 0.66 A and decays to what is bled") {
  const SmallRun run(
      on_charger("{ charge = \"98.8 %\" }, { charge = \"99.6 %\" }, { charge = \"98.7 %\" }, { "
                 "charge = \"98.9 %\" }",
                 stretch(charging, "3 h")),
      23.0);
  CHECK(charge_a(run, minute_s) == doctest::Approx(0.66).epsilon(0.3));
  CHECK(charge_a(run, 2.0 * hour_s) == doctest::Approx(0.1).epsilon(0.3));
  // What the charger still gives is what the bleed resistors take: nothing reaches the cells.
  CHECK(run.at(2.0 * hour_s, "pack", "discharge current") == doctest::Approx(0.0).epsilon(0.001));
  CHECK(run.said_s("board", "bleeds group 2") >= 0.0);
  CHECK(run.said_s("board", "cuts") < 0.0);
}

TEST_CASE("a charger set to 4.225 V a cell is itself a finding") {
  const auto build = tideover::test::small_build(
      on_charger("{ charge = \"90 %\" }, { charge = \"90 %\" }, { charge = \"90 %\" }, { charge = "
                 "\"90 %\" }",
                 stretch(charging, "3 h")));
  const auto all = tideover::finding::check({build, {}});
  const auto found = std::ranges::find_if(all, [](const tideover::finding::Found& one) {
    return one.rule->key == "charge_voltage" && one.finding.part == "charger";
  });
  REQUIRE(found != all.end());
  CHECK(found->finding.answer == tideover::finding::Answer::Fails);
  REQUIRE(found->finding.measured.has_value());
  CHECK(found->finding.measured->value_si == doctest::Approx(4.225).epsilon(0.01));
}

TEST_CASE("a group that passes the over-charge threshold stops the charge until it is drained") {
  const double off_s = 30.0 * minute_s;
  const double on_again_s = 40.0 * minute_s;
  const double drain_s = 70.0 * minute_s;
  const double resumed_s = 78.0 * minute_s;
  const SmallRun run(
      on_charger("{ charge = \"97.7 %\" }, { charge = \"100 %\" }, { charge = \"97.6 %\" }, { "
                 "charge = \"97.8 %\" }",
                 stretch(charging, "30 min") + stretch(at_rest, "10 min") +
                     stretch(charging, "30 min") + stretch(drained, "8 min") +
                     stretch(charging, "2 h")),
      23.0);
  const double cut_s = run.said_s("board", "cuts the charge path: group 2 is full");
  REQUIRE(cut_s > 0.0);
  CHECK(cut_s < off_s);
  CHECK(run.at(cut_s - just_before_s, "pack", "group 2 voltage") ==
        doctest::Approx(4.25).epsilon(0.002));
  // A milliampere or so goes into the divider of what stands between.
  constexpr double nothing_a = 0.01;
  CHECK(charge_a(run, off_s - minute_s) < nothing_a);
  CHECK(charge_a(run, on_again_s + minute_s) < nothing_a);
  CHECK(charge_a(run, drain_s - minute_s) < nothing_a);
  // The drain takes that group below the 4.15 V of its release.
  const double released_s = run.said_s("board", "lets the pack charge again");
  CHECK(released_s > drain_s);
  CHECK(released_s < resumed_s);
  CHECK(run.at(released_s - just_before_s, "pack", "group 2 voltage") ==
        doctest::Approx(4.15).epsilon(0.002));
  const double at_first_a = charge_a(run, resumed_s + minute_s);
  CHECK(at_first_a > 0.46);
  CHECK(charge_a(run, resumed_s + 15.0 * minute_s) < 0.5 * at_first_a);
  CHECK(charge_a(run, resumed_s + 1.5 * hour_s) == doctest::Approx(0.1).epsilon(0.3));
}

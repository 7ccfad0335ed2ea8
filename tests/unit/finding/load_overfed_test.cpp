// What a device gets at the most.
#include <algorithm>

#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover::finding;
using tideover::quantity::Volt;
using tideover::test::ask;
using tideover::test::beacon;
using tideover::test::BeaconRun;
using tideover::test::Changes;

namespace {

Finding of(const std::string& part, const Changes& changes) {
  const auto found = ask(load_overfed(), changes);
  const auto at = std::ranges::find(found, part, &Finding::part);
  REQUIRE(at != found.end());
  return *at;
}

}  // namespace

TEST_CASE("given an adapter of 24 V +/- 2 %, a lamp up to 28 V is content") {
  const Finding found = of("lamp", {});
  CHECK(found.answer == Answer::Holds);
  CHECK(found.sentence == "lamp accepts up to 28 V and may get 24.48 V: mains24 at no load.");
}

TEST_CASE(
    "given a lamp up to 24.5 V, the adapter's tolerance makes 24.48 V tight and 24.6 V fail") {
  CHECK(of("lamp", {{"lamp.accepts", "'20 V to 24.5 V'"}}).answer == Answer::Tight);
  const Finding fails =
      of("lamp", {{"lamp.accepts", "'20 V to 24.5 V'"}, {"mains24.output", "'24.1 V +/- 2 %'"}});
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.measured->value_si == doctest::Approx(24.582));
  CHECK(fails.advice ==
        "mains24: 24.04 V or less at its highest, or a converter between it and lamp.");
  CHECK(
      of("lamp", {{"lamp.accepts", "'20 V to 24.5 V'"}, {"mains24.output", "'24.04 V'"}}).answer ==
      Answer::Holds);
}

TEST_CASE("given a buzzer on the pack itself, the full pack on its charger counts") {
  const Changes direct{{"buzzer.kind", "'load'"},
                       {"buzzer.draws", "'1 W'"},
                       {"buzzer.accepts", "'9 V to 12.5 V'"},
                       {"leads.buzzer_plus.between", "['pack.plus', 'buzzer.plus']"},
                       {"leads.buzzer_plus.size", "'0.75 mm2'"},
                       {"leads.buzzer_plus.length", "'1 m'"},
                       {"leads.buzzer_return.between", "['buzzer.minus', 'board.p_minus']"},
                       {"leads.buzzer_return.size", "'0.75 mm2'"},
                       {"leads.buzzer_return.length", "'1 m'"},
                       {"charger.voltage", "'12.6 V'"}};
  const Finding found = of("buzzer", direct);
  CHECK(found.answer == Answer::Fails);
  CHECK(found.sentence ==
        "buzzer accepts up to 12.5 V and may get 12.6 V: pack when charger has filled it.");
}

TEST_CASE("what a run shows counts too") {
  BeaconRun run;
  run.channel("lamp", "input voltage", Volt::dimension, 29.0, 24.0);
  run.overload("lamp", "highest input voltage", "input voltage", 28.0, 29.0);
  const auto found = ask(load_overfed(), beacon(), {run.record()});
  const auto lamp = std::ranges::find(found, "lamp", &Finding::part);
  CHECK(lamp->answer == Answer::Fails);
  CHECK(lamp->measured->value_si == doctest::Approx(29.0));
}

// Cold charging, warm cells and warm parts.
#include <algorithm>

#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover::finding;
using tideover::quantity::Kelvin;
using tideover::test::ask;
using tideover::test::beacon;
using tideover::test::BeaconRun;
using tideover::test::Changes;

namespace {

constexpr double zero_k = 273.15;

Finding cold(const std::string& ambient, Changes more = {}) {
  more["needs.ambient"] = ambient;
  return ask(cold_charging(), more).front();
}

Finding warm(const std::string& part, const std::string& channel, double celsius,
             const Rule& rule) {
  BeaconRun run;
  run.channel(part, channel, Kelvin::dimension, zero_k + 20.0, zero_k + celsius, true);
  auto found = ask(rule, beacon(), {run.record()});
  REQUIRE_FALSE(found.empty());
  return found.front();
}

}  // namespace

TEST_CASE("cells from 0 degC on: 3 degC hold, 1 degC is near, -1 degC fails") {
  CHECK(cold("'3 degC to 30 degC'").answer == Answer::Holds);
  CHECK(cold("'1 degC to 30 degC'").answer == Answer::Tight);
  const Finding fails = cold("'-1 degC to 30 degC'");
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.sentence ==
        "pack may be charged down to -1 degC; its cells may be from 0 degC on: as cold as it gets "
        "around it.");
  CHECK(fails.advice.starts_with("charger: waits_below = 2 degC or more"));
}

TEST_CASE("a charger that waits, or a board that feels the cold, makes it hold") {
  CHECK(cold("'-10 degC to 30 degC'", {{"charger.waits_below", "'2 degC'"}}).answer ==
        Answer::Holds);
  CHECK(cold("'-10 degC to 30 degC'", {{"board.has_temperature_sensor", "true"},
                                       {"board.charge_window", "'3 degC to 45 degC'"}})
            .answer == Answer::Holds);
  CHECK(cold("'-10 degC to 30 degC'", {{"board.has_temperature_sensor", "true"},
                                       {"board.charge_window", "'-5 degC to 45 degC'"}})
            .answer == Answer::Fails);
}

TEST_CASE("cells at 54 degC hold, at 56 degC are near, at 61 degC fail") {
  const auto at = [](double celsius) {
    return warm("pack", "cell temperature", celsius, cell_temperature());
  };
  CHECK(at(54.0).answer == Answer::Holds);
  CHECK(at(56.0).answer == Answer::Tight);
  const Finding fails = at(61.0);
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.limit->value_si == doctest::Approx(zero_k + 60.0));
  CHECK(fails.advice ==
        "pack: 6 K cooler at least: more air past it, a cooler place, less current.");
}

TEST_CASE("while they charge they may be less warm") {
  CHECK(warm("pack", "cell temperature while charging", 46.0, cell_temperature()).answer ==
        Answer::Fails);
  CHECK(warm("pack", "cell temperature while charging", 39.0, cell_temperature()).answer ==
        Answer::Holds);
}

TEST_CASE("a converter that shuts down at 125 degC holds at 114, is near at 116 and fails at 126") {
  const auto at = [](double celsius) {
    return warm("up24", "body temperature", celsius, part_temperature());
  };
  CHECK(at(114.0).answer == Answer::Holds);
  CHECK(at(116.0).answer == Answer::Tight);
  const Finding fails = at(126.0);
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.sentence ==
        "up24 comes to 126 degC, as the mains goes (as is); above 125 degC it shuts down.");
}

TEST_CASE("without a run nothing is said of what gets warm") {
  CHECK(ask(cell_temperature()).empty());
  CHECK(ask(part_temperature()).empty());
}

TEST_CASE("given nothing known to charge the pack, a cold charge seen in a run is told") {
  BeaconRun run;
  run.channel("pack", "cell temperature while charging", Kelvin::dimension, zero_k - 3.0,
              zero_k + 20.0, true);
  run.overload("pack", "lowest temperature to charge at", "cell temperature while charging", zero_k,
               zero_k - 3.0);
  auto build = beacon();
  std::erase_if(build.parts, [](const auto& part) { return part->name == "charger"; });
  const auto found = ask(cold_charging(), build, {run.record()});
  REQUIRE(found.size() == 1);
  CHECK(found.front().answer == Answer::Fails);
  CHECK(found.front().measured->value_si == doctest::Approx(zero_k - 3.0));
  CHECK(found.front().advice.starts_with("what charges it: "));
}

// How long a capacitor holds a load up: closed forms of the handbooks, and the solver beside them.
#include <doctest/doctest.h>

#include "build/read_sheet.hpp"
#include "part/capacitor/sizing.hpp"
#include "question/passage.hpp"
#include "run/run.hpp"
#include "shelf/shelf.hpp"
#include "support/closeness.hpp"

using namespace tideover;
using namespace tideover::quantity::literals;
using tests::relative_error;

namespace {

// A load of its own on 2200 uF, whose plug is pulled: 12 V before, lost at 10.8 V.
question::Passage decay(const std::string& draws, const std::string& esr) {
  const std::string sheet = "[needs]\noutlast = \"1 min\"\n[parts.buoy]\nkind = \"load\"\n" +
                            draws +
                            R"(
accepts = "10.8 V to 15 V"
input_capacitance = "0 F"
[parts.c1]
kind = "capacitor"
capacitance = "2200 uF"
leakage = "0 A"
rated = "25 V"
esr = ")" + esr + R"("
[parts.main]
kind = "adapter"
output = "12 V"
rated = "10 A"
source_resistance = "1 mOhm"
[joins]
plus = { terminals = ["main.plus", "c1.plus", "buoy.plus"] }
minus = { terminals = ["main.minus", "c1.minus", "buoy.minus"] }
[[timelines.pull.stretch]]
mains = "present"
lasts = "1 s"
[[timelines.pull.stretch]]
mains = "unplugged"
lasts = "1 s"
)";
  const auto read = build::read_sheet(sheet, "decay.toml", shelf::built_in_shelf());
  REQUIRE_MESSAGE(read, (read ? std::string() : base::show(read.problems().front())));
  base::NoProgress nobody;
  const run::Record record = run::run(read.value(), read.value().timelines.front(), {}, {}, nobody);
  const auto loads = question::accepted_ranges(read.value());
  const auto changes = question::source_changes_of(record, read.value());
  REQUIRE(changes.size() == 1);
  return question::passage_of(record, loads.front(), changes.front());
}

// 1 mOhm at 1 A, in the adapter: 11.999 V before the plug is pulled, 0.09 % of the time; and as
// much for the resistance of the capacitor, 0.1 mOhm.
constexpr double within = 2e-3;

}  // namespace

TEST_CASE("100 W for 20 ms from 400 V to 300 V takes 57.1 uF, public question-and-answer page") {
  CHECK(relative_error(part::hold_up_capacitance(100.0_W, 20.0_ms, 400.0_V, 300.0_V).si(),
                       57.14e-6) < 1e-3);
}

TEST_CASE("200 W takes twice as much, 114.3 uF, public application note") {
  CHECK(relative_error(part::hold_up_capacitance(200.0_W, 20.0_ms, 400.0_V, 300.0_V).si(),
                       114.3e-6) < 1e-3);
}

TEST_CASE("18 W for 15 ms from 12 V to 10.8 V takes 19.7 mF, calculated") {
  CHECK(relative_error(part::hold_up_capacitance(18.0_W, 15.0_ms, 12.0_V, 10.8_V).si(), 19.7e-3) <
        3e-3);
}

TEST_CASE("from 390 V to 300 V 40.8 % of what is stored is used, public note, 10 % droop 19 %") {
  const auto share = [](quantity::Volt from, quantity::Volt to) {
    const auto time = part::hold_up_time(1.0_W, 1.0_mF, from, to);
    return time.si() / part::hold_up_time(1.0_W, 1.0_mF, from, 0.0_V).si();
  };
  CHECK(relative_error(share(390.0_V, 300.0_V), 0.408) < 2e-3);
  CHECK(relative_error(share(100.0_V, 90.0_V), 0.19) < 1e-9);
}

TEST_CASE(
    "2200 uF hold 12 W from 12 V to 10.8 V for 2.508 ms, calculated, closed form and solver") {
  CHECK(relative_error(part::hold_up_time(12.0_W, 2200.0_uF, 12.0_V, 10.8_V).si(), 2.508e-3) <
        1e-4);
  const question::Passage passage = decay("draws = \"12 W\"", "0.1 mOhm");
  REQUIRE(passage.lost_after);
  CHECK(relative_error(passage.lost_after->si(), 2.508e-3) < within);
}

TEST_CASE("1 A for 2.640 ms, 12 Ohm for 2.782 ms: constant power is the shortest, calculated") {
  const question::Passage current = decay("draws_current = \"1 A\"", "0.1 mOhm");
  const question::Passage resistance = decay("draws_resistance = \"12 Ohm\"", "0.1 mOhm");
  const question::Passage power = decay("draws = \"12 W\"", "0.1 mOhm");
  REQUIRE(current.lost_after);
  REQUIRE(resistance.lost_after);
  CHECK(relative_error(current.lost_after->si(), 2.640e-3) < within);
  CHECK(relative_error(resistance.lost_after->si(), 2.782e-3) < within);
  CHECK(*power.lost_after < *current.lost_after);
  CHECK(*current.lost_after < *resistance.lost_after);
}

TEST_CASE("2 A across 50 mOhm is a step of 0.100 V before any discharge, calculated") {
  // So much less time at 2 A: C (1.2 V - 0.1 V) / 2 A.
  const question::Passage stepped = decay("draws_current = \"2 A\"", "50 mOhm");
  REQUIRE(stepped.lost_after);
  CHECK(relative_error(stepped.lost_after->si(), 2200e-6 * 1.1 / 2.0) < 2.0 * within);
}

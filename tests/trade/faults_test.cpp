// Planted faults of a beacon's supply, with what a practitioner knows comes of each.

#include <doctest/doctest.h>

#include "support/beacon.hpp"
#include "support/fault_bench.hpp"
#include "support/jetty.hpp"

using namespace tideover;
using question::Effort;
using question::FaultEffect;
using question::FaultEntry;
using question::Onset;
using question::Severity;
using test::cleared_by;
using test::FaultBench;
using test::says;
using test::seen_by;

namespace {

// Its lamp wants 20 V to 28 V, its clock 4.7 V to 5.3 V; the clock hangs on the pack all the time.
const FaultBench& beacon_bench() {
  static const FaultBench bench(test::beacon());
  return bench;
}

FaultEntry tried(const std::vector<std::string>& words) { return beacon_bench().tried(words); }

const FaultEffect& from_the_start(const FaultEntry& entry) {
  REQUIRE(entry.effects.front().onset == Onset::Start);
  return entry.effects.front();
}

const FaultEffect& in_the_outage(const FaultEntry& entry) {
  REQUIRE(entry.effects.size() == 2);
  return entry.effects.back();
}

}  // namespace

TEST_CASE("given the return wire of the pack broken, all goes as the mains goes, and not before") {
  const FaultEntry entry = tried({"leads.pack_minus: comes off"});
  const FaultEffect& effect = from_the_start(entry);
  for (const std::string load : {"lamp", "clock"}) {
    CAPTURE(load);
    const question::LoadEffect& seen = seen_by(effect, load);
    // The charger alone keeps up the rail while the mains is there.
    CHECK_FALSE(seen.is_lost_with_mains);
    REQUIRE(seen.lost_after);
    CHECK(seen.lost_after->si() < 1.0);
  }
  // Without the cells' minus its taps stand far below the board's: a known killer of boards
  // (common practice, no source: the minus goes on first and comes off last).
  CHECK(entry.severity() == Severity::Breaks);
  CHECK(says(effect, "board: fed the wrong way round"));
  CHECK(entry.is_hidden);
  REQUIRE(entry.check);
  CHECK(entry.check->effort == Effort::PullPlug);
  CHECK(entry.check->words.find("is not served") != std::string::npos);
}

TEST_CASE("given a step-up shorted input to output, the lamp sees the pack less a diode") {
  const FaultEntry entry = tried({"up24: shorted through"});
  CHECK(entry.severity() == Severity::Loses);
  const question::LoadEffect& lamp = seen_by(from_the_start(entry), "lamp");
  CHECK_FALSE(lamp.is_lost_with_mains);
  REQUIRE(lamp.lost_after);
  CHECK(lamp.lost_after->si() < 1.0);
  // 5 V do not come by way of it.
  CHECK_FALSE(seen_by(from_the_start(entry), "clock").is_lost_with_mains);
  CHECK(entry.is_hidden);
  REQUIRE(entry.check);
  CHECK(entry.check->effort == Effort::PullPlug);
  CHECK(entry.check->words == "lamp is not served");
  // Lost within the very instant, though at three hours.
  const question::LoadEffect& later = seen_by(in_the_outage(entry), "lamp");
  REQUIRE(later.lost_after);
  CHECK(later.lost_after->si() == doctest::Approx(3.0 * 3600.0).epsilon(1e-3));
}

TEST_CASE("given a step-down shorted input to output, the clock is fed with the pack's voltage") {
  const FaultEntry entry = tried({"down5: shorted through"});
  CHECK(entry.severity() == Severity::Breaks);
  const question::LoadEffect& clock = seen_by(from_the_start(entry), "clock");
  // Three cells at 12.3 V, less what some leads of 150 mm drop.
  CHECK(clock.highest.si() == doctest::Approx(12.3).epsilon(0.01));
  CHECK(clock.above.si() > 6.0 * 3600.0);
  CHECK(says(from_the_start(entry), "clock: highest input voltage"));
}

TEST_CASE("given one group shorted inside, it gets hot, and the board ends it all") {
  const FaultEntry entry = tried({"pack: group shorted"});
  CHECK(entry.severity() == Severity::Burns);
  const FaultEffect& effect = from_the_start(entry);
  // 4.1 V over 0.1 Ohm and what two cells side by side and their links have: some 120 W at first.
  CHECK(says(effect, "heat of the short"));
  CHECK(says(effect, "pack: lowest cell voltage 0 V"));
  CHECK(cleared_by(effect, "board", "cuts the discharge path") != nullptr);
  for (const std::string load : {"lamp", "clock"}) {
    CAPTURE(load);
    REQUIRE(seen_by(effect, load).lost_after);
    CHECK(seen_by(effect, load).lost_after->si() < 1.0);
  }
  // What burns while the mains is there is not hidden.
  CHECK(effect.judgement.burns_with_mains);
  CHECK_FALSE(entry.is_hidden);
}

TEST_CASE("a charger set too high is held by the board, and by nothing if that is shorted") {
  const FaultEntry high = tried({"charger: voltage a tenth high"});
  CHECK(high.severity() > Severity::Breaks);
  const FaultEntry shorted = tried({"board: charge transistor shorted"});
  CHECK(shorted.severity() == Severity::Nothing);
  const FaultEntry both =
      tried({"board: charge transistor shorted", "charger: voltage a tenth high"});
  CHECK(both.severity() == Severity::Burns);
  CHECK(both.fault.words() == "board: charge transistor shorted + charger: voltage a tenth high");
  // 1.1 times 12.3 V over three groups.
  CHECK(says(from_the_start(both), "pack: highest cell voltage 4.51 V where 4.25 V is the limit"));
}

TEST_CASE("given a fuse replaced by 10 A, it still clears a short, four times as late or later") {
  // I2t of a blade goes with about the square of its rating (common practice, no source).
  const FaultEntry right = tried({"down5: input shorted"});
  const FaultEntry wrong = tried({"f_pack: replaced by 10 A", "down5: input shorted"});
  const auto* const sound = cleared_by(from_the_start(right), "f_pack", "blows");
  const auto* const late = cleared_by(from_the_start(wrong), "f_pack", "blows");
  REQUIRE(sound != nullptr);
  REQUIRE(late != nullptr);
  REQUIRE(sound->latest);
  REQUIRE(late->latest);
  CHECK(sound->earliest <= *sound->latest);
  CHECK(late->earliest <= *late->latest);
  CHECK(late->earliest.si() > 3.0 * sound->earliest.si());
  CHECK(late->latest->si() > 3.0 * sound->latest->si());
  CHECK(right.severity() == Severity::Loses);
}

TEST_CASE("given a lead of the cells chafed to their minus, nothing ends it and the lead burns") {
  const FaultEntry entry = tried({"leads.pack_plus: chafed to the cells' minus"});
  const FaultEffect& effect = from_the_start(entry);
  CHECK(entry.severity() == Severity::Burns);
  CHECK(cleared_by(effect, "f_pack", "blows") == nullptr);
  CHECK(says(effect, "leads.pack_plus: ampacity"));
  CHECK(says(effect, "pack: discharge current"));
  CHECK_FALSE(entry.is_hidden);
  // The same wire chafed to the common has the board in the way, which cuts within its delay.
  const FaultEntry behind = tried({"leads.pack_plus: chafed to the common"});
  const auto* const cut = cleared_by(from_the_start(behind), "board", "cuts the discharge path");
  REQUIRE(cut != nullptr);
  CHECK(cut->earliest.si() < 1e-3);
  CHECK(behind.severity() == Severity::Loses);
}

TEST_CASE(
    "given a dead charger, the clock goes though the mains is back, and the pack stays empty") {
  const FaultEntry entry = tried({"charger: dead"});
  CHECK(entry.severity() == Severity::Loses);
  CHECK(says(from_the_start(entry), "the pack does not get full again"));
  CHECK(seen_by(from_the_start(entry), "clock").out_after_return);
  CHECK_FALSE(seen_by(from_the_start(entry), "lamp").out_after_return);
}

TEST_CASE("what never carries a current may come off unnoticed") {
  // Of a bleeding board there is none; its taps carry next to nothing, the switch's way does.
  test::Changes changes;
  test::add_lead(changes, "spare", "main.common", "main.way1", "'150 mm'");
  const FaultBench bench(test::beacon(changes));
  const FaultEntry entry = bench.tried({"leads.spare: comes off"});
  CHECK(entry.severity() == Severity::Nothing);
  CHECK(from_the_start(entry).judgement.sentences.empty());
  CHECK_FALSE(entry.check);
  CHECK_FALSE(entry.is_hidden);
}

TEST_CASE(
    "given a welded relay, the horn goes as the mains goes, and pulling the adapter finds it") {
  const FaultBench bench(test::jetty({}));
  const FaultEntry entry = bench.tried({"swap: work contact welded"});
  CHECK(entry.severity() == Severity::Loses);
  const question::LoadEffect& horn = seen_by(from_the_start(entry), "horn");
  CHECK_FALSE(horn.is_lost_with_mains);
  REQUIRE(horn.lost_after);
  CHECK(horn.lost_after->si() < 1.0);
  CHECK(entry.is_hidden);
  REQUIRE(entry.check);
  CHECK(entry.check->effort == Effort::PullPlug);
  CHECK(entry.check->words == "horn is not served");
}

TEST_CASE("given a fuse replaced by 10 A, a shorted lamp burns the lead that the right one saves") {
  const FaultBench bench(test::jetty({{"f_pack.rated", "'20 A'"},
                                      {"leads.lamp_plus.size", "'0.14 mm2'"},
                                      {"leads.lamp_return.size", "'0.14 mm2'"}}));
  const FaultEntry right = bench.tried({"lamp: shorted"});
  CHECK(right.severity() == Severity::Loses);
  const auto* const blown = cleared_by(from_the_start(right), "f_lamp", "blows");
  REQUIRE(blown != nullptr);
  REQUIRE(blown->latest);
  CHECK(blown->latest->si() < 5.0);
  const FaultEntry wrong = bench.tried({"f_lamp: replaced by 10 A", "lamp: shorted"});
  CHECK(wrong.severity() == Severity::Burns);
  CHECK(says(from_the_start(wrong), "leads.lamp_"));
}

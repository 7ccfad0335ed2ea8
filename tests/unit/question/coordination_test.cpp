// What protects each lead, and which fuses stand in a row.
#include "question/coordination.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "build/read_sheet.hpp"
#include "question/coordination_phrases.hpp"
#include "shelf/shelf.hpp"
#include "support/closeness.hpp"
#include "support/jetty.hpp"
#include "support/places.hpp"
#include "support/random_build.hpp"

using namespace tideover;
using namespace tideover::quantity;
using namespace tideover::quantity::literals;
using question::Coordination;
using question::coordination;
using question::First;
using question::Guard;
using question::LeadCover;
using question::Protection;
using test::jetty;

namespace {

const LeadCover& lead(const Coordination& answer, const std::string& name) {
  const auto found = std::ranges::find_if(
      answer.leads, [&](const LeadCover& one) { return one.lead->name == name; });
  REQUIRE_MESSAGE(found != answer.leads.end(), name);
  return *found;
}

const question::FuseRace& row(const Coordination& answer, const std::string& before,
                              const std::string& behind) {
  for (const question::FusesInARow& one : answer.rows) {
    if (one.race.before->name == before && one.race.behind->name == behind) return one.race;
  }
  FAIL("no such row: ", before, " ", behind);
  return answer.rows.front().race;
}

}  // namespace

TEST_CASE("the leads between the cells and the board, which nothing protects, stand first") {
  const build::Build build = jetty();
  const Coordination answer = coordination(build);
  REQUIRE(answer.leads.size() > 4);
  std::size_t bare = 0;
  while (answer.leads[bare].protection == Protection::None) ++bare;
  REQUIRE(bare >= 3);
  for (std::size_t k = bare; k < answer.leads.size(); ++k) {
    CHECK(answer.leads[k].protection != Protection::None);
  }
  for (const char* name : {"board_plus", "tap_1", "tap_2"}) {
    CAPTURE(name);
    const LeadCover& one = lead(answer, name);
    CHECK(one.protection == Protection::None);
    CHECK(one.shorts.front().guard == Guard::Nothing);
    CHECK_FALSE(one.shorts.front().opens);
  }
  // The one that has the least time, unless it is longer than may be before a fuse.
  CHECK(answer.leads.front().lead->name == "board_plus");
  CHECK(question::headline_of(answer).front().starts_with("Nothing opens a short circuit of"));
}

TEST_CASE("a longer lead before its fuse comes before the short ones") {
  const build::Build build = jetty({{"leads.pack_plus.length", "'190 mm'"}});
  const Coordination answer = coordination(build);
  CHECK(answer.leads.front().lead->name == "pack_plus");
  CHECK_FALSE(answer.leads.front().is_short());
}

TEST_CASE("a fuse in a sense lead protects what lies behind it") {
  const auto fused = [](const char* rated) {
    return jetty({{"f_tap.kind", "'fuse'"},
                  {"f_tap.style", "'quick'"},
                  {"f_tap.rated", rated},
                  {"leads.tap_2.between", "['pack.tap2', 'f_tap.a']"},
                  {"leads.tap_2.length", "'20 mm'"},
                  {"leads.tap_2b.between", "['f_tap.b', 'board.tap2']"},
                  {"leads.tap_2b.size", "'24 AWG'"},
                  {"leads.tap_2b.length", "'100 mm'"}});
  };
  const build::Build build = fused("'0.5 A'");
  const Coordination answer = coordination(build);
  CHECK(lead(answer, "tap_2").protection == Protection::None);
  CHECK(lead(answer, "tap_2b").protection == Protection::Fuse);
  CHECK(lead(answer, "tap_2b").shorts.front().device->name == "f_tap");
  CHECK(
      std::ranges::any_of(answer.alone, [](const auto& one) { return one.fuse->name == "f_tap"; }));
}

TEST_CASE("behind the pack's fuse that fuse protects, behind the lamp's the smaller one does") {
  const build::Build build = jetty();
  const Coordination answer = coordination(build);
  const LeadCover& fused = lead(answer, "pack_fused");
  CHECK(fused.protection == Protection::Fuse);
  CHECK(fused.shorts.front().device->name == "f_pack");
  CHECK(fused.shorts.front().source->name == "pack");
  CHECK(fused.shorts.front().opens.value() < fused.shorts.front().stands.value_or(1000.0_s));
  CHECK(lead(answer, "lamp_plus").shorts.front().device->name == "f_lamp");
  // The lamp's return carries what comes through the lamp's fuse.
  CHECK(lead(answer, "lamp_return").is_return);
  CHECK(lead(answer, "lamp_return").shorts.front().device->name == "f_lamp");
}

TEST_CASE("a lead that only an adapter feeds is kept by its own limit, and that is said") {
  const build::Build build = jetty();
  const Coordination answer = coordination(build);
  const LeadCover& coil = lead(answer, "coil_plus");
  CHECK(coil.protection == Protection::Limit);
  CHECK(coil.shorts.front().device->name == "shore");
  CHECK(question::device_words(coil.shorts.front()) == "shore's own limit");
  CHECK_FALSE(coil.shorts.front().opens);
  CHECK_FALSE(coil.shorts.front().stands);
}

TEST_CASE("too thin for the adapter's limit is too thin, whatever else") {
  const build::Build build = jetty({{"leads.coil_plus.size", "'0.05 mm2'"}});
  const Coordination answer = coordination(build);
  CHECK(lead(answer, "coil_plus").protection == Protection::Thin);
  CHECK(question::advice_for(lead(answer, "coil_plus")).find("thicker wire") != std::string::npos);
}

TEST_CASE("a large slow fuse opens too late for a thin lead") {
  const build::Build build = jetty({{"f_pack.style", "'large-blade'"},
                                    {"f_pack.rated", "'60 A'"},
                                    {"leads.pack_fused.size", "'24 AWG'"}});
  const Coordination answer = coordination(build);
  const LeadCover& fused = lead(answer, "pack_fused");
  CHECK(fused.protection == Protection::Late);
  const question::LeadShort& one = fused.shorts.front();
  CHECK_FALSE(one.is_in_time);
  CHECK((!one.opens || *one.opens > one.stands.value()));
}

TEST_CASE("without a fuse the board is what is left behind the cells, and is said to be no fuse") {
  test::JettyChanges changes{{"leads.pack_plus.between", "['pack.plus', 'main.common']"}};
  for (const char* path :
       {"f_pack.kind", "f_pack.style", "f_pack.rated", "f_pack.rated_voltage", "f_pack.breaking_dc",
        "leads.pack_fused.between", "leads.pack_fused.size", "leads.pack_fused.length",
        "leads.pack_fused.colour"}) {
    changes[path] = "";
  }
  changes["board.discharge_over_current"] = "'8 A'";
  const build::Build build = jetty(changes);
  const Coordination answer = coordination(build);
  CHECK(lead(answer, "pack_plus").protection == Protection::None);  // it begins at the cells
  const LeadCover& switched = lead(answer, "pack_switched");
  CHECK(switched.protection == Protection::Board);
  CHECK(question::device_words(switched.shorts.front()) == "board, a protection board and no fuse");
  CHECK(switched.shorts.front().opens.value() < 1.0_s);
  // Set above what a worn and empty pack drives, it may never cut.
  changes["board.discharge_over_current"] = "'60 A'";
  const build::Build high = jetty(changes);
  const Coordination late = coordination(high);
  CHECK(lead(late, "pack_switched").protection == Protection::Late);
  CHECK(lead(late, "pack_switched").shorts.front().guard == Guard::Board);
  CHECK_FALSE(lead(late, "pack_switched").shorts.front().opens);
}

TEST_CASE("what the lead stands falls from its ampacity by the adiabatic rule") {
  const build::Build build = jetty();
  const part::Wire& wire = lead(coordination(build), "lamp_plus").lead->wire;
  const Temperature air = Temperature::of_celsius(30.0);
  const Ampere carries = wire.ampacity(air).current;
  CHECK_FALSE(finding::standing_time(wire, carries, air));
  CHECK(finding::standing_time(wire, 1.4 * carries, air).value() == 3600.0_s);
  // 0.75 mm2 of copper in PVC: k2S2 = 7439 A2s (IEC 60364-4-43, from memory; calculated): 100 A for
  // 0.74 s, and never more than 5 s.
  CHECK(tests::relative_error(finding::standing_time(wire, 100.0_A, air).value().si(), 0.7439) <
        1e-3);
  CHECK(finding::standing_time(wire, 20.0_A, air).value() == 5.0_s);
}

TEST_CASE("a pack's 30 A blade and the lamp's 5 A blade are a row in which the lamp's goes first") {
  const build::Build build = jetty({{"f_pack.rated", "'30 A'"},
                                    {"f_lamp.style", "'blade'"},
                                    {"f_lamp.rated", "'5 A'"},
                                    {"leads.pack_plus.size", "'6 mm2'"}});
  const Coordination answer = coordination(build);
  const question::FuseRace& race = row(answer, "f_pack", "f_lamp");
  CHECK(race.is_selective());
  REQUIRE(race.stretches.size() == 1);
  CHECK(race.stretches.front().first == First::Behind);
  CHECK(race.stretches.front().from == 30.0_A);
  CHECK(answer.alone.empty());
  CHECK(question::headline_of(answer).back().starts_with("f_lamp goes before f_pack at every"));
}

TEST_CASE("rows that are the wrong way round come before those that are sure") {
  const build::Build build =
      jetty({{"f_pack.rated", "'3 A'"}, {"f_lamp.style", "'blade'"}, {"f_lamp.rated", "'15 A'"}});
  const Coordination answer = coordination(build);
  CHECK(answer.rows.front().race.is_the_wrong_way());
  CHECK(question::headline_of(answer).back().find(" behind f_lamp opens f_pack first.") !=
        std::string::npos);
}

TEST_CASE("the pack drives most through its fuses, so it is the source of their row") {
  const build::Build build = jetty();
  const Coordination answer = coordination(build);
  REQUIRE(answer.rows.size() == 1);
  for (const question::FusesInARow& one : answer.rows) {
    CHECK(one.source->name == "pack");
  }
}

TEST_CASE(
    "every example: what begins at the cells comes first, and behind a fuse nothing is bare") {
  for (const char* name : {"frost-watch", "tide-hut", "tower-clock", "weir-alarm"}) {
    CAPTURE(name);
    const auto read = build::read_sheet_file(test::examples_dir() / name, shelf::built_in_shelf());
    REQUIRE(read);
    const build::Build& build = read.value();
    const Coordination answer = coordination(build);
    CHECK(answer.leads.front().protection == Protection::None);
    for (const LeadCover& one : answer.leads) {
      CAPTURE(one.lead->name);
      const bool is_at_pack = one.lead->from.part == one.shorts.front().source->name ||
                              one.lead->to.part == one.shorts.front().source->name;
      if (one.protection == Protection::None) CHECK(is_at_pack);
      REQUIRE_FALSE(one.shorts.empty());
      for (const question::LeadShort& each : one.shorts) {
        CHECK(each.current.lowest <= each.current.highest);
        CHECK((each.device == nullptr) == (each.guard == Guard::Nothing));
      }
    }
  }
}

TEST_CASE("random sheets, well and wrongly wired, get an answer for every lead that is fed") {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    CAPTURE(seed);
    const std::string sheet =
        (seed % 2 == 0 ? test::RandomBuild(seed) : test::miswired_build(seed)).sheet();
    const auto read = build::read_sheet(sheet, "random.toml", shelf::built_in_shelf());
    if (!read) continue;
    const finding::Feeding feeding(read.value());
    const Coordination answer = coordination(read.value());
    CHECK(answer.leads.size() == finding::lead_guards(read.value(), feeding).size());
    for (const LeadCover& one : answer.leads) {
      REQUIRE_FALSE(one.shorts.empty());
      const std::string words = sentence_of(one, one.shorts.front());
      CHECK_MESSAGE(words.find("not a number") == std::string::npos, words);
      CHECK_MESSAGE(words.find("infinite") == std::string::npos, words);
    }
  }
}

// The fault table on paper: what a friend reads before plugging it in.
#include <algorithm>
#include <string>

#include <doctest/doctest.h>

#include "papers/fault_rows.hpp"
#include "papers/report.hpp"
#include "papers/report_sections.hpp"
#include "support/jetty.hpp"
#include "unit/drawing/xml_reading.hpp"

using namespace tideover;
using quantity::Second;
using question::ClearingBand;
using question::FaultEntry;
using question::FaultTable;
using question::LoadEffect;
using question::Onset;
using question::Severity;

namespace {

Second seconds(double s) { return Second::of_si(s); }

LoadEffect served(const std::string& load) {
  LoadEffect effect;
  effect.load = load;
  return effect;
}
LoadEffect lost(const std::string& load, double after_s) {
  LoadEffect effect = served(load);
  effect.lost_after = seconds(after_s);
  return effect;
}
ClearingBand blows(const std::string& fuse, double earliest_s, std::optional<double> latest_s) {
  return {.part = fuse,
          .words = "blows",
          .is_for_good = true,
          .earliest = seconds(earliest_s),
          .latest = latest_s ? std::optional(seconds(*latest_s)) : std::nullopt};
}

struct Told {
  std::string subject;
  std::string mode;
  Severity severity;
  std::vector<std::string> sentences = {};
  std::vector<LoadEffect> loads = {};
  std::vector<ClearingBand> clearings = {};
};

FaultEntry entry(const Told& told) {
  FaultEntry made;
  made.fault.subject = told.subject;
  made.fault.mode = told.mode;
  made.fault.means = told.mode + " means this";
  made.effects = {{.onset = Onset::Start,
                   .judgement = {.severity = told.severity, .sentences = told.sentences},
                   .loads = told.loads,
                   .clearings = told.clearings}};
  return made;
}

FaultTable table_of(std::vector<FaultEntry> entries) {
  FaultTable table;
  table.faults = entries.size();
  table.sound.outage = seconds(6.0 * 3600.0);
  table.sound.ambient = quantity::Temperature::of_celsius(19.0);
  table.entries = std::move(entries);
  return table;
}

// A pack's lead that nothing protects, a lamp's lead that a fuse does, three that lose the horn.
FaultTable jetty_faults() {
  const std::string hot = "pack: highest temperature 385 degC where 60 degC is the limit, for 2 h";
  return table_of(
      {entry({.subject = "leads.lamp_feed",
              .mode = "chafed to the common",
              .severity = Severity::Burns,
              .sentences = {"defects: 9 W where 5 W is the limit, for 2 min"},
              .loads = {served("horn"), lost("lamp", 0.1)},
              .clearings = {blows("f_lamp", 0.0074, 0.097)}}),
       entry({.subject = "leads.pack_plus",
              .mode = "chafed to the cells' minus",
              .severity = Severity::Burns,
              .sentences = {hot, "horn is lost as the mains goes"},
              .loads = {lost("horn", 0.2), lost("lamp", 0.1)}}),
       entry({.subject = "leads.horn_plus",
              .mode = "comes off",
              .severity = Severity::Loses,
              .loads = {lost("horn", 0.1), served("lamp")}}),
       entry({.subject = "swap",
              .mode = "rest contact open",
              .severity = Severity::Loses,
              .loads = {lost("horn", 0.3), served("lamp")}}),
       entry({.subject = "leads.horn_minus",
              .mode = "comes off",
              .severity = Severity::Loses,
              .loads = {lost("horn", 0.1), served("lamp")}}),
       entry({.subject = "bar", .mode = "clamp 1 loose", .severity = Severity::Nothing})});
}

// With plain spaces: which of them keep words together is tested elsewhere.
std::string section_of(const FaultTable& table) {
  const build::Build build = test::jetty();
  papers::Page page;
  papers::write_faults({build, {}, {}, {}, &table}, page);
  std::string body = page.body();
  const std::string fixed_space = "\u00a0";
  for (std::size_t at = 0; (at = body.find(fixed_space, at)) != std::string::npos;) {
    body.replace(at, fixed_space.size(), " ");
  }
  return body;
}

std::size_t place(const std::string& text, const std::string& words) {
  const auto at = text.find(words);
  REQUIRE_MESSAGE(at != std::string::npos, words);
  return at;
}
bool contains(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("what can burn and no fuse opens stands first, what is harmless in a paragraph") {
  const std::string body = section_of(jetty_faults());
  CHECK(contains(body, "2 can burn: no fuse opens 1 of them."));
  const std::size_t bare = place(body, "No fuse opens these");
  const std::size_t fused = place(body, "A fuse opens these");
  CHECK(bare < place(body, "lead pack_plus"));
  CHECK(place(body, "lead pack_plus") < fused);
  CHECK(fused < place(body, "lead lamp_feed"));
  CHECK(place(body, "lead lamp_feed") < place(body, "Loses a device: 3 faults"));
  CHECK(place(body, "Nothing seen: 1 fault") < place(body, "bar: clamp 1 loose."));
}

TEST_CASE("faults of equal effect share a row that names them all") {
  const FaultTable table = jetty_faults();
  const auto rows = papers::fault_rows(table, Severity::Loses);
  REQUIRE(rows.size() == 1);
  CHECK(rows[0].faults.size() == 3);
  CHECK(papers::modes_in_words(rows[0].faults, papers::Meaning::Told) ==
        std::vector<std::string>{"leads horn_plus, horn_minus: comes off (comes off means this)",
                                 "swap: rest contact open (rest contact open means this)"});
  CHECK(papers::devices_in_words(rows[0]) ==
        std::vector<std::string>{"horn: lost as the mains goes", "lamp: as when sound"});
  CHECK(papers::fault_rows(table, Severity::Burns).size() == 2);
}

TEST_CASE("of a row with a fuse, the earliest and the latest clearing of all its faults are told") {
  const auto feeding = [](const std::string& lead, double earliest_s,
                          std::optional<double> latest) {
    return entry({.subject = lead,
                  .mode = "chafed to the common",
                  .severity = Severity::Breaks,
                  .loads = {lost("lamp", 0.1)},
                  .clearings = {blows("f_lamp", earliest_s, latest)}});
  };
  const build::Build build = test::jetty();
  const FaultTable sure = table_of({feeding("leads.a", 0.01, 0.05), feeding("leads.b", 0.02, 0.1)});
  CHECK(papers::clearings_in_words(build, papers::fault_rows(sure, Severity::Breaks).at(0)) ==
        std::vector<std::string>{"f_lamp blows after 10 ms to 100 ms"});
  const FaultTable unsure =
      table_of({feeding("leads.a", 0.01, 0.05), feeding("leads.b", 0.02, {})});
  CHECK(papers::clearings_in_words(build, papers::fault_rows(unsure, Severity::Breaks).at(0)) ==
        std::vector<std::string>{
            "f_lamp blows after 10 ms at the earliest; at its slowest it does not"});
}

TEST_CASE("a device that is lost early is told with the range over the faults of its row") {
  const auto early = [](const std::string& part, double after_s) {
    LoadEffect load = lost("horn", after_s);
    load.sound_lost_after = seconds(18000.0);
    return entry(
        {.subject = part, .mode = "tired", .severity = Severity::Shortens, .loads = {load}});
  };
  const FaultTable table = table_of({early("pack", 3600.0), early("up12", 7200.0)});
  CHECK(papers::devices_in_words(papers::fault_rows(table, Severity::Shortens).at(0)) ==
        std::vector<std::string>{"horn: lost after 1 h to 2 h, 5 h when sound"});
}

TEST_CASE("a fault that arises in the outage says so, and what it is before it") {
  FaultTable table = table_of({entry({.subject = "up12",
                                      .mode = "shorted",
                                      .severity = Severity::Nothing,
                                      .loads = {served("horn")}})});
  FaultEntry& one = table.entries[0];
  one.effects.push_back(one.effects[0]);
  one.effects[1].onset = Onset::InOutage;
  one.effects[1].judgement = {.severity = Severity::Breaks,
                              .sentences = {"horn: voltage 20 V where 15 V is the limit, for 1 s"}};
  CHECK(papers::harms_in_words(papers::fault_rows(table, Severity::Breaks).at(0)) ==
        std::vector<std::string>{
            "arising in the outage:", "horn: voltage 20 V where 15 V is the limit, for 1 s",
            "there before the outage: nothing seen"});
}

TEST_CASE("hidden faults are a list to tick, quickest check first, with the time each takes") {
  FaultTable table = jetty_faults();
  const auto hide = [&](std::size_t k, question::Effort effort, const std::string& words) {
    table.entries[k].is_hidden = true;
    table.entries[k].check = question::Check{effort, words};
  };
  hide(2, question::Effort::OpenBox, "up12.plus to up12.minus: 0 V, 12.6 V when sound");
  hide(3, question::Effort::PullPlug, "horn is not served");
  hide(4, question::Effort::PullPlug, "horn is not served");
  table.entries[1].is_hidden = true;
  const std::string body = section_of(table);
  const std::size_t pulled = place(body, "Pull the adapters for a minute and look (some");
  CHECK(pulled < place(body, "Open the box, a meter inside (some"));
  CHECK(place(body, "Open the box") < place(body, "Make sure of these while the build is open"));
  CHECK(place(body, "horn is not served") == body.rfind("horn is not served"));
  CHECK(contains(body, "If it is so: swap: rest contact open; lead horn_minus: comes off"));
  CHECK(contains(body, "class=\"ticks\""));
}

TEST_CASE("a table that was cut off says how much of it is there") {
  FaultTable table = jetty_faults();
  table.is_partial = true;
  table.faults = 300;
  CHECK(contains(section_of(table), "Stopped: 6 of 300 faults were tried."));
  table.entries.clear();
  CHECK(contains(section_of(table), "Stopped before any fault was tried"));
}

TEST_CASE("the section is well-formed with captions and scopes, and absent where nobody asked") {
  const build::Build build = test::jetty();
  const std::string html = papers::report_html(build, {}, "9.9.9", {}, {}, jetty_faults());
  CHECK(read_xml(html.substr(html.find('\n') + 1)).fault == "");
  const std::string body = section_of(jetty_faults());
  CHECK(contains(body, "<caption>Faults that come to"));
  CHECK(contains(body, "<th scope=\"row\">lead pack_plus"));
  CHECK(contains(body, "<th scope=\"col\""));
  CHECK(contains(body, "class=\"caution\""));
  CHECK(section_of({}).empty());
}

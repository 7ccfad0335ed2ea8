// The fault table for programs and spreadsheets.
#include <algorithm>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "service/fault_lines.hpp"
#include "service/faults_json.hpp"
#include "support/jetty.hpp"

using namespace tideover;
using quantity::Second;
using question::FaultTable;
using question::Onset;
using question::Severity;

namespace {

FaultTable one_fault() {
  FaultTable table;
  table.faults = 1;
  table.sound.outage = Second::of_si(21600.0);
  question::FaultEntry entry;
  entry.fault.subject = "leads.lamp_feed";
  entry.fault.mode = "chafed, \"through\"";
  entry.fault.means = "its insulation is through";
  entry.is_hidden = true;
  entry.check = question::Check{question::Effort::PullPlug, "lamp is not served, horn is"};
  question::LoadEffect lamp;
  lamp.load = "lamp";
  lamp.lost_after = Second::of_si(12.5);
  const question::ClearingBand fuse{.part = "f_lamp",
                                    .words = "blows",
                                    .is_for_good = true,
                                    .earliest = Second::of_si(0.25),
                                    .latest = {}};
  entry.effects = {
      {.onset = Onset::Start,
       .judgement = {.severity = Severity::Loses, .sentences = {"lamp is lost as the mains goes"}},
       .loads = {lamp},
       .clearings = {fuse}},
      {.onset = Onset::InOutage, .judgement = {}, .loads = {lamp}, .clearings = {}}};
  table.entries.push_back(entry);
  return table;
}

// RFC 4180, section 2: records end in CRLF; a quoted field may hold commas, line ends and quotes,
// these doubled.
std::vector<std::vector<std::string>> records_of(const std::string& csv) {
  std::vector<std::vector<std::string>> records(1);
  records.back().emplace_back();
  bool is_quoted = false;
  for (std::size_t k = 0; k < csv.size(); ++k) {
    const char c = csv[k];
    if (is_quoted && c == '"' && k + 1 < csv.size() && csv[k + 1] == '"') {
      records.back().back() += csv[++k];
    } else if (c == '"') {
      is_quoted = !is_quoted;
    } else if (!is_quoted && c == ',') {
      records.back().emplace_back();
    } else if (!is_quoted && c == '\r') {
      REQUIRE(csv.at(++k) == '\n');
      records.push_back({""});
    } else {
      records.back().back() += c;
    }
  }
  REQUIRE_FALSE(is_quoted);
  records.pop_back();  // what follows the last line end is no record
  return records;
}

}  // namespace

TEST_CASE("a spreadsheet gets a row a fault and onset, commas and quotes in their fields") {
  const auto records = records_of(service::faults_csv(one_fault()));
  REQUIRE(records.size() == 3);
  for (const auto& record : records) CHECK(record.size() == records[0].size());
  const auto field = [&](std::size_t row, const std::string& head) {
    const auto at = std::find(records[0].begin(), records[0].end(), head);
    REQUIRE(at != records[0].end());
    return records[row][static_cast<std::size_t>(at - records[0].begin())];
  };
  CHECK(field(1, "mode") == "chafed, \"through\"");
  CHECK(field(1, "shows") == "lamp is not served, horn is");
  CHECK(field(1, "severity") == "loses a device");
  CHECK(field(1, "devices") == "lamp lost after 12.5 s");
  CHECK(field(1, "clears") == "f_lamp blows: 0.25 s to never");
  CHECK(field(2, "onset") == "outage");
  CHECK(field(2, "clears").empty());
}

TEST_CASE("programs get times in seconds, and nothing for what does not happen") {
  const auto text =
      service::write_json(service::faults_json(one_fault()), service::Layout::OneLine);
  const auto read = service::read_json(text);
  REQUIRE(read);
  const service::Json& json = read.value();
  CHECK(json.find("faults_in_all")->number() == 1.0);
  const service::Json& entry = json.find("faults")->list()->front();
  CHECK(*entry.find("mode")->text() == "chafed, \"through\"");
  CHECK(entry.find("cheapest_check")->find("cost_s")->number() == 240.0);
  const service::Json& run = entry.find("runs")->list()->front();
  CHECK(*run.find("severity")->text() == "loses a device");
  const service::Json& load = run.find("loads")->list()->front();
  CHECK(load.find("lost_after_s")->number() == 12.5);
  CHECK_FALSE(load.find("lost_after_when_sound_s")->number());
  const service::Json& fuse = run.find("clears")->list()->front();
  CHECK(fuse.find("earliest_s")->number() == 0.25);
  CHECK_FALSE(fuse.find("latest_s")->number());
}

TEST_CASE("the terminal ends with the hidden faults and the cautions") {
  const auto lines = service::fault_lines(test::jetty(), one_fault());
  const auto line_with = [&](const std::string& words) {
    for (std::size_t k = 0; k < lines.size(); ++k) {
      if (lines[k].words.find(words) != std::string::npos) return k;
    }
    FAIL(words);
    return lines.size();
  };
  CHECK(line_with("Loses a device: 1 fault") < line_with("Hidden: "));
  CHECK(line_with("Hidden: ") < line_with("lamp is not served, horn is"));
  CHECK(line_with("lamp is not served, horn is") < line_with("Never try a short circuit"));
}

#include "question/faults.hpp"

#include <algorithm>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "question/double_fault.hpp"
#include "question/fault_words.hpp"
#include "support/sheet_text.hpp"

using namespace tideover;
using question::Fault;
using question::FaultTable;
using question::Severity;

namespace {

// A torch on one cell, fed by an adapter past a diode: few parts, few faults.
build::Build torch(const test::Lines& more = {}) {
  test::Lines lines{{"needs.outlast", "'1 h'"},
                    {"needs.ambient", "'20 degC'"},
                    {"bulb.kind", "'load'"},
                    {"bulb.accepts", "'3 V to 6 V'"},
                    {"bulb.draws_current", "'1 A'"},
                    {"wall.kind", "'adapter'"},
                    {"wall.output", "'5 V'"},
                    {"wall.rated", "'2 A'"},
                    {"cell.kind", "'pack'"},
                    {"cell.cell", "'shelf:nmc-18650-2900'"},
                    {"cell.series", "1"},
                    {"cell.parallel", "1"},
                    {"d_wall.kind", "'diode'"},
                    {"d_wall.rated", "'3 A'"},
                    {"d_cell.kind", "'diode'"},
                    {"d_cell.rated", "'3 A'"}};
  test::add_lead(lines, "wall_plus", "wall.plus", "d_wall.anode", "'100 mm'");
  test::add_lead(lines, "wall_to_bulb", "d_wall.cathode", "bulb.plus", "'100 mm'");
  test::add_lead(lines, "cell_plus", "cell.plus", "d_cell.anode", "'100 mm'");
  test::add_lead(lines, "cell_to_bulb", "d_cell.cathode", "bulb.plus", "'100 mm'");
  test::add_lead(lines, "cell_return", "cell.minus", "wall.minus", "'100 mm'");
  test::add_lead(lines, "bulb_return", "bulb.minus", "wall.minus", "'100 mm'");
  for (const auto& [path, value] : more) lines[path] = value;
  return test::read_or_fail(test::sheet_text(lines), "torch.toml");
}

std::vector<std::string> words_of(const std::vector<Fault>& faults) {
  std::vector<std::string> words;
  for (const Fault& fault : faults) words.push_back(fault.words());
  return words;
}

bool has(const std::vector<std::string>& words, const std::string& word) {
  return std::ranges::find(words, word) != words.end();
}

std::vector<std::string> told(const FaultTable& table) {
  std::vector<std::string> all;
  for (const question::FaultEntry& entry : table.entries) {
    all.push_back(entry.fault.words());
    for (std::string& one : sentences_of(entry)) all.push_back(std::move(one));
    if (entry.check) all.push_back(entry.check->words);
  }
  return all;
}

// Stops once a tenth of the faults is tried.
class Impatient final : public base::Progress {
 public:
  void report(double share, std::string_view doing) override {
    has_enough_ = doing == "trying one fault after another" && share > 0.1;
  }
  [[nodiscard]] bool stop_asked() const override { return has_enough_; }

 private:
  bool has_enough_ = false;
};

}  // namespace

TEST_CASE("each part and each lead has its faults, and none is there twice") {
  const auto words =
      words_of(question::faults_of(torch({{"bar.kind", "'terminal-block'"}, {"bar.ways", "6"}})));
  for (const char* const word :
       {"bulb: shorted", "wall: dead", "cell: group shorted", "leads.bulb_return: comes off",
        "leads.wall_plus: loose screw", "leads.cell_to_bulb: chafed to the common",
        "leads.cell_plus: chafed to the cells' minus"}) {
    CAPTURE(word);
    CHECK(has(words, word));
  }
  auto sorted = words;
  std::ranges::sort(sorted);
  CHECK(std::ranges::adjacent_find(sorted) == sorted.end());
  // The cells' minus is the common here: touching one is touching the other.
  CHECK_FALSE(has(words, "leads.cell_plus: chafed to the common"));
  // A return is itself the common.
  CHECK_FALSE(has(words, "leads.bulb_return: chafed to the common"));
  // Where no wire is, nothing breaks.
  for (const std::string& word : words) CHECK_FALSE(word.starts_with("bar:"));
}

TEST_CASE("the worst stands first, and the table is the same for any number of threads") {
  const build::Build build = torch();
  base::NoProgress nobody;
  const FaultTable one = question::fault_table(build, nobody, 1);
  CHECK_FALSE(one.is_partial);
  CHECK(one.entries.size() == one.faults);
  REQUIRE_FALSE(one.entries.empty());
  CHECK(one.entries.front().severity() == Severity::Burns);
  for (std::size_t k = 1; k < one.entries.size(); ++k) {
    const auto& above = one.entries[k - 1].worst().judgement;
    const auto& below = one.entries[k].worst().judgement;
    CHECK(above.severity <= below.severity);
    if (above.severity == below.severity) CHECK(above.weight_share >= below.weight_share);
  }
  // Nothing stands between the cell and what its plus touches.
  CHECK(one.entries.front().fault.words() == "leads.cell_plus: chafed to the cells' minus");
  CHECK(told(question::fault_table(build, nobody, 2)) == told(one));
  CHECK(told(question::fault_table(build, nobody, 3)) == told(one));
}

TEST_CASE("stopped in the middle, the table says how many were tried") {
  Impatient user;
  const FaultTable table = question::fault_table(torch(), user, 1);
  CHECK(table.is_partial);
  CHECK(table.entries.size() > 0);
  CHECK(table.entries.size() < table.faults);
  CHECK(summary_of(table).starts_with(
      fmt::format("{} of {} single faults tried", table.entries.size(), table.faults)));
}

TEST_CASE("faults tried together are named as the table names them") {
  const auto faults = question::faults_of(torch());
  const auto wrong = question::together(faults, {"bulb: shortet", "wall: dead"});
  REQUIRE_FALSE(wrong);
  REQUIRE(wrong.problems().size() == 1);
  CHECK(wrong.problems()[0].text == "there is no fault `bulb: shortet`");
  CHECK(wrong.problems()[0].remedy == "Did you mean `bulb: shorted`?");
  CHECK_FALSE(question::together(faults, {"wall: dead", "wall: dead"}));
  CHECK_FALSE(question::together(faults, {"wall: runs high", "wall: tired"}));
  const auto both = question::together(faults, {"wall: tired", "bulb: shorted"});
  REQUIRE(both);
  CHECK(both.value().words() == "wall: tired + bulb: shorted");
  CHECK(both.value().can_arise);
  CHECK(both.value().variation.alterations.size() == 2);
}

TEST_CASE(
    "with the adapter and the cell gone the bulb is out at once, with one of them it is not") {
  const build::Build build = torch();
  base::NoProgress nobody;
  const auto table =
      question::double_fault(build, {"wall: dead", "leads.cell_plus: comes off"}, nobody);
  REQUIRE(table);
  REQUIRE(table.value().entries.size() == 1);
  const auto& effect = table.value().entries[0].effects.front();
  CHECK(effect.loads.front().is_lost_with_mains);
  const auto single = question::double_fault(build, {"leads.cell_plus: comes off"}, nobody);
  REQUIRE(single);
  const auto& alone = single.value().entries[0].effects.front();
  CHECK_FALSE(alone.loads.front().is_lost_with_mains);
  CHECK(single.value().entries[0].is_hidden);
}

// Coordination for people and for programs.
#include <algorithm>
#include <string>

#include <doctest/doctest.h>

#include "service/coordination_json.hpp"
#include "service/coordination_lines.hpp"
#include "support/jetty.hpp"

using namespace tideover;
using service::Json;
using service::Line;
using test::jetty;

namespace {

const test::JettyChanges two_blades{{"f_pack.rated", "'30 A'"},
                                    {"f_lamp.style", "'blade'"},
                                    {"f_lamp.rated", "'5 A'"},
                                    {"leads.pack_plus.size", "'6 mm2'"}};

std::size_t line_with(const std::vector<Line>& lines, const std::string& words) {
  const auto found = std::ranges::find_if(
      lines, [&](const Line& line) { return line.words.find(words) != std::string::npos; });
  REQUIRE_MESSAGE(found != lines.end(), words);
  return static_cast<std::size_t>(found - lines.begin());
}

}  // namespace

TEST_CASE("the terminal names what nothing protects before anything else") {
  const build::Build build = jetty();
  const auto lines = service::coordination_lines(question::coordination(build));
  CHECK(lines[1].words.starts_with("  Nothing opens a short circuit of"));
  const std::size_t bare = line_with(lines, "  leads.board_plus: nothing opens");
  CHECK(bare < line_with(lines, "kept small by its source"));
  CHECK(lines[bare].tone == service::Tone::Warning);
  line_with(lines, "coil_plus (shore's own limit)");
  line_with(lines, "pack_fused (f_pack)");
  line_with(lines, "Caution: ");
}

TEST_CASE("the terminal tells a row of fuses by stretches of current") {
  const build::Build build = jetty(two_blades);
  const auto lines = service::coordination_lines(question::coordination(build));
  const std::size_t row = line_with(lines, "pack -> f_pack, 30 A, blade -> f_lamp, 5 A, blade");
  CHECK(lines[row + 1].words.starts_with("    30 A to "));
  CHECK(lines[row + 1].words.ends_with(": f_lamp first"));
  CHECK(lines[row + 1].tone == service::Tone::Good);
}

TEST_CASE("programs get every lead with every source, and the stretches in amperes") {
  const build::Build build = jetty(two_blades);
  const question::Coordination answer = question::coordination(build);
  const Json json = service::coordination_json(answer);
  const Json* const leads = json.find("leads");
  REQUIRE(leads != nullptr);
  CHECK(leads->list()->size() == answer.leads.size());
  const Json& first = leads->list()->front();
  CHECK(*first.find("protection")->text() == "none");
  const Json& short_circuit = first.find("shorts")->list()->front();
  CHECK(*short_circuit.find("guard")->text() == "nothing");
  CHECK_FALSE(short_circuit.find("opens_within_s")->number());
  CHECK(short_circuit.find("most_a")->number().value() >
        short_circuit.find("least_a")->number().value());
  const Json& row = json.find("fuses_in_a_row")->list()->front();
  CHECK(*row.find("before")->text() == "f_pack");
  CHECK(*row.find("behind")->text() == "f_lamp");
  const Json& stretch = row.find("currents")->list()->front();
  CHECK(stretch.find("from_a")->number() == 30.0);
  CHECK(*stretch.find("first")->text() == "behind");
  CHECK(row.find("before_melts_from_a2s")->number().value() >
        row.find("behind_lets_through_a2s")->number().value());
}

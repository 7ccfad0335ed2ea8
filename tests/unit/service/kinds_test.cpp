#include <fstream>
#include <sstream>

#include <doctest/doctest.h>

#include "part/kind.hpp"
#include "service/verb.hpp"
#include "support/places.hpp"

using namespace tideover;
using service::Reply;
using service::Status;

namespace {

Reply ask(const std::string& verb, const std::string& word = "") {
  base::NoProgress nobody;
  return service::answer({.verb = verb, .word = word}, nobody);
}

std::string words_of(const Reply& reply) {
  std::string text;
  for (const service::Line& line : reply.lines) text += line.words + "\n";
  return text;
}

std::string after(const std::string& line, const std::string& head) {
  REQUIRE(line.starts_with(head));
  return line.substr(head.size());
}

}  // namespace

TEST_CASE("every kind of part is listed with its terminals and what must be said") {
  const Reply reply = ask("kinds");
  const std::string text = words_of(reply);
  for (const part::Kind& kind : part::kinds()) {
    CHECK(text.find(kind.description->name + ": " + kind.description->means) != std::string::npos);
  }
  CHECK(text.find("    terminals: plus, minus, (signal)\n    must say: accepts\n") !=
        std::string::npos);
  // Taps come with the cells in series, a second pole with the count of poles.
  CHECK(text.find("tap") != std::string::npos);
  CHECK(text.find("common2) ... by `poles`") != std::string::npos);
  CHECK(reply.json.find("kinds")->list()->size() == part::kinds().size());
}

TEST_CASE("the table of kinds in the README is the program's own") {
  std::ifstream stream(test::source_dir() / "README.md");
  std::ostringstream readme;
  readme << stream.rdbuf();
  const Reply reply = ask("kinds");
  for (std::size_t k = 0; k < part::kinds().size(); ++k) {
    const std::string& head = reply.lines[3 * k].words;
    const std::string row = "| `" + head.substr(0, head.find(": ")) + "` | " +
                            after(reply.lines[3 * k + 1].words, "    terminals: ") + " | " +
                            after(reply.lines[3 * k + 2].words, "    must say: ") + " |\n";
    CHECK_MESSAGE(readme.str().find(row) != std::string::npos, row);
  }
}

TEST_CASE("the sheet of symbols in docs is the program's own") {
  std::ifstream stream(test::source_dir() / "docs" / "symbols.svg");
  std::ostringstream drawn;
  drawn << stream.rdbuf();
  const Reply reply = ask("kinds", "symbols");
  CHECK(reply.status == Status::Met);
  CHECK_MESSAGE(reply.document == drawn.str(), "tideover kinds symbols > docs/symbols.svg");
  CHECK(reply.document.find("coil_plus") != std::string::npos);
}

TEST_CASE("one kind is listed with every key, its unit and its default") {
  const std::string text = words_of(ask("kinds", "load"));
  for (const part::Field& field : part::find_kind("load")->description->fields) {
    CHECK(text.find("  " + field.key + ": ") != std::string::npos);
  }
  CHECK(text.find("accepts: a voltage, from and to") != std::string::npos);
  CHECK(text.find("left out: 1 mA, typical of an input converter") != std::string::npos);
}

TEST_CASE("the shelf lists its rows with values and sources") {
  CHECK(words_of(ask("shelf")).find("nmc-21700-4000") != std::string::npos);
  const std::string fuses = words_of(ask("shelf", "fuse"));
  CHECK(fuses.find("shelf:glass-5x20-f-1a") != std::string::npos);
  CHECK(fuses.find("rated 1 A") != std::string::npos);
  CHECK(fuses.find("IEC 60127-2") != std::string::npos);
}

TEST_CASE("a kind or a list that there is not is refused with the nearest") {
  for (const auto& [verb, word] :
       {std::pair{"kinds", "relais"}, std::pair{"shelf", "fuses"}, std::pair{"kinds", "xyzzy"}}) {
    const Reply reply = ask(verb, word);
    CHECK(reply.status == Status::Refused);
    REQUIRE(reply.problems.size() == 1);
    CHECK_FALSE(reply.problems.front().remedy.empty());
  }
}

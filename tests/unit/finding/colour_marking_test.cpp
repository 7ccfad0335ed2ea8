// Every lead has a colour, and none is taken for protective earth.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/jetty.hpp"

using namespace tideover::finding;
using tideover::test::ask_jetty;

TEST_CASE("the leads of the jetty are all coloured") {
  const auto found = ask_jetty(colour_marking());
  REQUIRE(found.size() == 1);
  CHECK(found[0].answer == Answer::Holds);
  CHECK(found[0].sentence ==
        "All 24 leads have a colour, and 0 of them may be taken for protective earth.");
}

TEST_CASE("a lead without a colour is asked for") {
  const auto found = ask_jetty(colour_marking(), {{"leads.horn_plus.colour", ""}});
  REQUIRE(found.size() == 1);
  CHECK(found[0].answer == Answer::Unknown);
  CHECK(found[0].unknown == std::vector<std::string>{"leads.horn_plus.colour"});
}

TEST_CASE("green is a colour like others until there is a protective conductor") {
  CHECK(ask_jetty(colour_marking(), {{"leads.horn_plus.colour", "'GN'"}})[0].answer ==
        Answer::Holds);
  const auto found =
      ask_jetty(colour_marking(), {{"leads.horn_plus.colour", "'GN'"}, {"shore.earthed", "true"}});
  REQUIRE(found.size() == 1);
  CHECK(found[0].answer == Answer::Fails);
  CHECK(found[0].part == "leads.horn_plus");
}

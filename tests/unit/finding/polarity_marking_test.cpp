// Plus and minus by colour.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/jetty.hpp"

using namespace tideover::finding;
using tideover::test::ask_jetty;

TEST_CASE("no colour of the jetty stands for plus and for minus") {
  const auto found = ask_jetty(polarity_marking());
  REQUIRE(found.size() == 1);
  CHECK(found[0].answer == Answer::Holds);
  CHECK(found[0].measured->value_si == 0.0);
}

TEST_CASE("one return in red among many is told, and black mends it") {
  const auto found = ask_jetty(polarity_marking(), {{"leads.lamp_return.colour", "'RD'"}});
  REQUIRE(found.size() == 1);
  CHECK(found[0].answer == Answer::Fails);
  CHECK(found[0].part == "leads.lamp_return");
  CHECK(found[0].measured->value_si == 1.0);
  CHECK(found[0].advice == "leads.lamp_return: colour = \"BK\".");
}

TEST_CASE("one plus in black is told as well") {
  const auto found = ask_jetty(polarity_marking(), {{"leads.horn_plus.colour", "'BK'"}});
  REQUIRE(found.size() == 1);
  CHECK(found[0].part == "leads.horn_plus");
  CHECK(found[0].advice == "leads.horn_plus: colour = \"RD\".");
}

TEST_CASE("taps stand between plus and minus and may have any colour") {
  CHECK(ask_jetty(polarity_marking(), {{"leads.tap_1.colour", "'BK'"}})[0].answer == Answer::Holds);
}

// Of two fuses in a row the nearer one goes first.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/jetty.hpp"

using namespace tideover::finding;
using tideover::test::ask_jetty;

namespace {

Finding with(const char* lamp_style, const char* lamp_rated, const char* pack_style,
             const char* pack_rated) {
  return ask_jetty(fuse_selectivity(), "f_lamp",
                   {{"f_lamp.style", lamp_style},
                    {"f_lamp.rated", lamp_rated},
                    {"f_pack.style", pack_style},
                    {"f_pack.rated", pack_rated}});
}

}  // namespace

TEST_CASE("a quick fuse behind a large slow one goes first at every current") {
  const Finding finding = with("'quick'", "'1 A'", "'large-blade'", "'40 A'");
  CHECK(finding.answer == Answer::Holds);
  CHECK(finding.measured->value_si < finding.limit->value_si);
  CHECK(finding.sentence.ends_with("it goes first."));
}

TEST_CASE("two blades of nearly one rating may both go") {
  const Finding finding = with("'blade'", "'4 A'", "'blade'", "'5 A'");
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si > finding.limit->value_si);
  CHECK(finding.advice == "f_lamp: rated = 2 A or less.");
  CHECK(with("'blade'", "'2 A'", "'blade'", "'5 A'").answer == Answer::Tight);
}

TEST_CASE("where the hand rule alone speaks for a fuse, the quick one that is advised is sure") {
  const Finding slow = with("'time-lag'", "'1 A'", "'blade'", "'5 A'");
  CHECK(slow.answer == Answer::Tight);
  CHECK(slow.advice.starts_with("f_lamp: style = \"quick\""));
  CHECK(with("'quick'", "'1 A'", "'blade'", "'5 A'").answer == Answer::Holds);
}

TEST_CASE("two to one in rated current is the least, whatever the bands say") {
  CHECK(with("'blade'", "'5 A'", "'blade'", "'10 A'").answer == Answer::Tight);
  CHECK(with("'blade'", "'7.5 A'", "'blade'", "'10 A'").answer == Answer::Fails);
}

TEST_CASE("a fuse that stands alone has none to go before") {
  for (const Finding& finding : ask_jetty(fuse_selectivity())) CHECK(finding.part == "f_lamp");
}

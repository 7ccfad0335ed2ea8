// Class of what a source can give for seconds.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/jetty.hpp"

using namespace tideover::finding;
using tideover::test::ask_jetty;

namespace {

// An adapter of 12 V, without tolerance, that gives up at this current.
Finding adapter(const char* limit) {
  return ask_jetty(power_class(), "shore",
                   {{"shore.output", "'12 V'"}, {"shore.rated", "'1 A'"}, {"shore.limit", limit}});
}

bool is(const Finding& finding, const char* name) {
  CHECK(finding.answer == Answer::Classed);
  return finding.sentence.find(name) != std::string::npos;
}

}  // namespace

TEST_CASE("up to 15 W a source sets nothing on fire, up to 100 W it may") {
  // IEC 62368-1, PS1 and PS2; 100 W as restated in two test reports (read), 15 W from memory.
  CHECK(is(adapter("'1.24 A'"), "PS1"));
  CHECK(is(adapter("'1.26 A'"), "PS2"));
  CHECK(is(adapter("'8.3 A'"), "PS2"));
  CHECK(is(adapter("'8.4 A'"), "PS3"));
  CHECK(adapter("'8.4 A'").measured->value_si == doctest::Approx(100.8));
  CHECK(adapter("'8.4 A'").limit->value_si == doctest::Approx(100.0));
}

TEST_CASE("the class of a pack is that behind its fuse") {
  CHECK(is(ask_jetty(power_class(), "pack"), "PS3"));
  const Finding behind_one = ask_jetty(power_class(), "pack", {{"f_pack.rated", "'1 A'"}});
  CHECK(is(behind_one, "PS2"));
  CHECK(behind_one.sentence.find("behind f_pack") != std::string::npos);
  // A blade of 1 A holds 135 % for up to ten minutes and twice its rating for 5 s at most.
  CHECK(behind_one.measured->value_si > 12.0 * 1.35);
  CHECK(behind_one.measured->value_si < 12.6 * 2.1);
}

// The ways that current can take through a build.
#include "build/ways.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "support/jetty.hpp"

using namespace tideover;
using build::TerminalName;
using build::Way;
using build::Ways;

namespace {

// Fewest leads to each point that can be reached.
std::optional<int> leads_between(const build::Build& build, const TerminalName& from,
                                 const TerminalName& to, Ways::Towards towards) {
  const Ways ways(build);
  const auto step = [](int before, const Way& way) -> std::optional<int> {
    return way.lead != nullptr ? before + 1 : before;
  };
  const auto better = [](int a, int b) { return a < b; };
  return ways.spread(ways.point_of(from).value(), 0, towards, step,
                     better)[ways.point_of(to).value()];
}

std::optional<int> down(const build::Build& build, const TerminalName& from,
                        const TerminalName& to) {
  return leads_between(build, from, to, Ways::Towards::Sink);
}

}  // namespace

TEST_CASE("joins are one point, leads and closed parts are ways") {
  const build::Build build = test::jetty();
  const Ways ways(build);
  CHECK(ways.point_of({"shore", "plus"}) == ways.point_of({"jack", "in1"}));
  CHECK(ways.point_of({"jack", "out1"}) != ways.point_of({"jack", "in1"}));
  // What a converter joins inside is one point as well.
  CHECK(ways.point_of({"up12", "in_minus"}) == ways.point_of({"up12", "out_minus"}));
  CHECK_FALSE(ways.point_of({"up12", "nowhere"}).has_value());
  // pack_plus, pack_fused, pack_switched, lamp_feed, lamp_plus.
  CHECK(down(build, {"pack", "plus"}, {"lamp", "plus"}) == 5);
}

TEST_CASE("users are ends: plus and minus do not meet") {
  CHECK_FALSE(down(test::jetty(), {"pack", "plus"}, {"pack", "minus"}).has_value());
}

TEST_CASE("of the contacts of one pole current takes one") {
  const build::Build build = test::jetty();
  CHECK(down(build, {"swap", "work"}, {"horn", "plus"}) == 1);
  CHECK(down(build, {"swap", "rest"}, {"horn", "plus"}) == 1);
  CHECK_FALSE(down(build, {"swap", "work"}, {"swap", "rest"}).has_value());
}

TEST_CASE("a step-up is a way forwards only, and who looks for the source goes against it") {
  const build::Build build = test::jetty();
  CHECK(down(build, {"up12", "in_plus"}, {"up12", "out_plus"}) == 0);
  CHECK_FALSE(down(build, {"up12", "out_plus"}, {"up12", "in_plus"}).has_value());
  CHECK(leads_between(build, {"up12", "out_plus"}, {"up12", "in_plus"}, Ways::Towards::Source) ==
        0);
}

TEST_CASE("a blown fuse is no way, and a resistor is one up to an ohm") {
  CHECK_FALSE(down(test::jetty({{"f_lamp.blown", "true"}}), {"pack", "plus"}, {"lamp", "plus"})
                  .has_value());
  const auto with = [](const char* ohms) {
    return test::jetty({{"drop.kind", "'resistor'"},
                        {"drop.resistance", ohms},
                        {"leads.lamp_plus.between", "['drop.b', 'lamp.plus']"},
                        {"leads.to_drop.between", "['f_lamp.b', 'drop.a']"},
                        {"leads.to_drop.size", "'0.75 mm2'"},
                        {"leads.to_drop.length", "'50 mm'"}});
  };
  CHECK(down(with("'0.5 Ohm'"), {"pack", "plus"}, {"lamp", "plus"}) == 6);
  CHECK_FALSE(down(with("'10 Ohm'"), {"pack", "plus"}, {"lamp", "plus"}).has_value());
}

// A fuse protects the thinnest lead behind it.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/jetty.hpp"

using namespace tideover::finding;
using tideover::test::ask_jetty;

TEST_CASE("a lead is guarded by the smallest fuse before it") {
  const Finding finding = ask_jetty(fuse_for_each_lead(), "leads.lamp_plus");
  CHECK(finding.answer == Answer::Holds);
  CHECK(finding.measured->value_si == doctest::Approx(1.0));
  // 0.75 mm2 in a bundle at 30 degC: 9 A in VDE 0298-4, group 1, as restated by kochkt.ch (read).
  CHECK(finding.limit->value_si == doctest::Approx(9.0));
}

TEST_CASE("where two sources meet their currents add up") {
  const Finding finding = ask_jetty(fuse_for_each_lead(), "leads.up12_plus");
  CHECK(finding.measured->value_si == doctest::Approx(6.0));
  CHECK(finding.sentence ==
        "leads.up12_plus may carry 9 A at 30 degC (VDE 0298-4 group 1); f_pack lets 5 A through "
        "for good, all that feeds it together 6 A.");
}

TEST_CASE("a lead fed by what gives less than it carries needs no fuse") {
  const auto at = [](const char* limit) {
    return ask_jetty(fuse_for_each_lead(), "leads.coil_plus", {{"shore.limit", limit}});
  };
  CHECK(at("'8.9 A'").answer == Answer::Holds);
  CHECK(at("'8.9 A'").sentence.ends_with("shore gives 8.9 A at most, so that it needs no fuse."));
  CHECK(at("'9.1 A'").answer == Answer::Fails);
  CHECK(at("'9.1 A'").advice ==
        "a fuse of 6.3 A or less at the beginning of leads.coil_plus, or leads.coil_plus: size = "
        "1 mm2 or more.");
}

TEST_CASE("given a thin lead behind too large a fuse, either of the two numbers mends it") {
  const auto with = [](const char* rated, const char* size) {
    return ask_jetty(fuse_for_each_lead(), "leads.lamp_plus",
                     {{"f_lamp.rated", rated}, {"leads.lamp_plus.size", size}});
  };
  const Finding finding = with("'1.25 A'", "'24 AWG'");
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.advice ==
        "f_lamp: rated = 1 A or less, or leads.lamp_plus: size = 0.34 mm2 or more.");
  CHECK(with("'1 A'", "'24 AWG'").answer == Answer::Holds);
  CHECK(with("'1.25 A'", "'0.34 mm2'").answer == Answer::Holds);
}

TEST_CASE("a return lead is guarded by the fuse of what returns through it") {
  const Finding finding = ask_jetty(fuse_for_each_lead(), "leads.lamp_return");
  CHECK(finding.measured->value_si == doctest::Approx(1.0));
  CHECK(ask_jetty(fuse_for_each_lead(), "leads.pack_minus").measured->value_si ==
        doctest::Approx(5.0));
}

TEST_CASE("what nothing protects is kept short") {
  const auto at = [](const char* length) {
    return ask_jetty(fuse_for_each_lead(), "leads.board_plus",
                     {{"leads.board_plus.length", length}});
  };
  CHECK(at("'178 mm'").answer == Answer::Tight);
  const Finding finding = at("'182 mm'");
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si == doctest::Approx(0.182));
  CHECK(finding.advice ==
        "leads.board_plus: length = 180 mm or less, or a fuse of 7.5 A or less within 180 mm of "
        "pack.");
  CHECK(at("'180 mm'").answer == Answer::Tight);
}

TEST_CASE("warm air leaves a lead less") {
  const Finding finding = ask_jetty(fuse_for_each_lead(), "leads.lamp_plus",
                                    {{"needs.ambient", "'0 degC to 50 degC'"}});
  // sqrt((70 - 50) / 40): the factor 0.71 of VDE 0298-4.
  CHECK(finding.limit->value_si == doctest::Approx(9.0 * 0.7071).epsilon(1e-4));
}

// The fuse next to a pack.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/jetty.hpp"

using namespace tideover::finding;
using tideover::test::ask_jetty;
using tideover::test::JettyChanges;

namespace {

JettyChanges without_fuse() {
  JettyChanges changes{{"leads.pack_plus.between", "['pack.plus', 'main.common']"}};
  for (const char* key : {"kind", "style", "rated", "rated_voltage", "breaking_dc"}) {
    changes[std::string("f_pack.") + key] = "";
  }
  for (const char* key : {"between", "size", "length", "colour"}) {
    changes[std::string("leads.pack_fused.") + key] = "";
  }
  return changes;
}

}  // namespace

TEST_CASE("given a fuse 60 mm from the pack's plus, the pack is guarded") {
  const Finding finding = ask_jetty(fuse_for_each_source(), "pack");
  CHECK(finding.answer == Answer::Holds);
  CHECK(finding.measured->value_si == doctest::Approx(0.06));
  CHECK(finding.limit->value_si == doctest::Approx(0.18));
}

TEST_CASE("a fuse 178 mm away is near enough, one 182 mm away is not") {
  const auto at = [](const char* length) {
    return ask_jetty(fuse_for_each_source(), "pack", {{"leads.pack_plus.length", length}});
  };
  CHECK(at("'178 mm'").answer == Answer::Tight);
  CHECK(at("'182 mm'").answer == Answer::Fails);
  CHECK(at("'182 mm'").advice == "f_pack: put it nearer to pack.plus, 180 mm of wire or less.");
}

TEST_CASE("given no fuse at all, the thinnest lead says which one it takes") {
  const Finding finding = ask_jetty(fuse_for_each_source(), "pack", without_fuse());
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si > 50.0);
  CHECK(finding.limit->value_si == doctest::Approx(9.0));
  CHECK(finding.advice.starts_with("a fuse of 7.5 A or less between pack.plus and "));
  CHECK(ask_jetty(fuse_for_each_source(), "pack", {{"f_pack.rated", "'7.5 A'"}}).answer ==
        Answer::Holds);
}

TEST_CASE("an adapter that limits itself needs no fuse of its own") {
  const Finding finding = ask_jetty(fuse_for_each_source(), "shore");
  CHECK(finding.answer == Answer::Holds);
  CHECK(finding.measured->value_si == doctest::Approx(2.5));
}

TEST_CASE("a second pack straight on the bar is told, with every lead it endangers") {
  const JettyChanges changes{{"spare.kind", "'pack'"},
                             {"spare.cell", "'shelf:nmc-18650-2900'"},
                             {"spare.series", "3"},
                             {"leads.spare_plus.between", "['spare.plus', 'bar.w6']"},
                             {"leads.spare_plus.size", "'0.75 mm2'"},
                             {"leads.spare_plus.length", "'200 mm'"},
                             {"leads.spare_minus.between", "['spare.minus', 'board.p_minus']"},
                             {"leads.spare_minus.size", "'0.75 mm2'"},
                             {"leads.spare_minus.length", "'200 mm'"}};
  CHECK(ask_jetty(fuse_for_each_source(), "spare", changes).answer == Answer::Fails);
  CHECK(ask_jetty(fuse_for_each_source(), "pack", changes).answer == Answer::Holds);
  CHECK(ask_jetty(fuse_for_each_lead(), "leads.spare_plus", changes).answer == Answer::Fails);
  CHECK(ask_jetty(fuse_for_each_lead(), "leads.up12_plus", changes).answer == Answer::Fails);
  // Behind a fuse of its own a lead is guarded whatever stands before.
  CHECK(ask_jetty(fuse_for_each_lead(), "leads.lamp_plus", changes).answer == Answer::Holds);
}

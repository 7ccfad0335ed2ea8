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

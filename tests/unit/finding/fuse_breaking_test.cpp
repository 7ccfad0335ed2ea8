// What a fuse can break at direct current.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include "finding/rule_list.hpp"
#include "support/jetty.hpp"

using namespace tideover::finding;
using tideover::test::ask_jetty;

namespace {

Finding with(double breaking_a) {
  return ask_jetty(fuse_breaking(), "f_pack",
                   {{"f_pack.breaking_dc", fmt::format("'{} A'", breaking_a)}});
}

}  // namespace

TEST_CASE("a blade of 1000 A breaks what a small pack drives") {
  const Finding finding = ask_jetty(fuse_breaking(), "f_pack");
  CHECK(finding.answer == Answer::Holds);
  CHECK(finding.measured->value_si > 50.0);
  CHECK(finding.measured->value_si < 1000.0);
}

TEST_CASE("a breaking capacity just above the prospective current is tight, one below fails") {
  const double prospective_a = with(1000.0).measured->value_si;
  CHECK(with(1.02 * prospective_a).answer == Answer::Tight);
  const Finding finding = with(0.98 * prospective_a);
  CHECK(finding.answer == Answer::Fails);
  const std::string start = "f_pack: breaking_dc = ";
  REQUIRE(finding.advice.starts_with(start));
  const double advised_a = std::stod(finding.advice.substr(start.size()));
  CHECK(advised_a > prospective_a);
  CHECK(with(advised_a).answer == Answer::Holds);
}

TEST_CASE("a rating for alternating current alone leaves it unknown") {
  const Finding finding = ask_jetty(fuse_breaking(), "f_lamp",
                                    {{"f_lamp.breaking_dc", ""}, {"f_lamp.breaking_ac", "'35 A'"}});
  CHECK(finding.answer == Answer::Unknown);
  CHECK(finding.unknown == std::vector<std::string>{"f_lamp.breaking_dc"});
  CHECK(finding.sentence.ends_with(
      "its 35 A are for alternating current and imply nothing for direct current."));
}

TEST_CASE("no rating at all leaves it unknown as well") {
  const Finding finding = ask_jetty(fuse_breaking(), "f_lamp", {{"f_lamp.breaking_dc", ""}});
  CHECK(finding.answer == Answer::Unknown);
  CHECK(finding.sentence.ends_with("what it can break at direct current is not given."));
}

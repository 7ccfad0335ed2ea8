// What a fuse can break at direct current.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include "finding/rule_list.hpp"
#include "part/fuse/fuse.hpp"
#include "part/pack/pack.hpp"
#include "support/jetty.hpp"

using namespace tideover;
using namespace tideover::finding;
using namespace tideover::quantity;
using namespace tideover::quantity::literals;
using test::ask_jetty;

namespace {

Finding with(double breaking_a) {
  return ask_jetty(fuse_breaking(), "f_pack",
                   {{"f_pack.breaking_dc", fmt::format("'{} A'", breaking_a)}});
}

// Three in series, three side by side, of 25 mOhm cells at 4.2 V: 504 A. The fuse sits on its plus.
Finding on_a_large_pack(part::FuseStyle style, Ampere breaking) {
  auto pack = std::make_unique<part::Pack>();
  pack->name = "pack";
  pack->series = 3;
  pack->parallel = 3;
  pack->cell.charge_to = Value<Volt>(4.2_V);
  pack->link_resistance = Value<Ohm>(0.0_Ohm);
  pack->cell.resistance.resize(1);
  pack->cell.resistance.front().resistance = Value<Ohm>(25_mOhm);
  auto fuse = std::make_unique<part::Fuse>();
  fuse->name = "f";
  fuse->style = style;
  fuse->rated = Value<Ampere>(10_A);
  fuse->breaking_dc = Value<Ampere>(breaking);
  fuse->breaking_dc.given = true;
  build::Build build;
  build.parts.push_back(std::move(pack));
  build.parts.push_back(std::move(fuse));
  build.joins.push_back({"plus", {{"pack", "plus"}, {"f", "a"}}});
  return fuse_breaking().ask({build, {}}).at(0);
}

}  // namespace

TEST_CASE("504 A: a blade for 1000 A at 32 V breaks them, a glass fuse for 35 A does not") {
  // U / R after a public page (read), the blade's figure from a second-hand datasheet, 35 A the low
  // breaking capacity of IEC 60127-2 (read).
  const Finding blade = on_a_large_pack(part::FuseStyle::Blade, 1000_A);
  CHECK(blade.measured->value_si == doctest::Approx(504.0));
  CHECK(blade.answer == Answer::Holds);
  CHECK(on_a_large_pack(part::FuseStyle::TimeLag, 35_A).answer == Answer::Fails);
}

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

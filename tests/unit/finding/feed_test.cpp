// What feeds a point of a build, and what stands between.
#include "finding/feed.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "part/pack/pack.hpp"
#include "support/closeness.hpp"
#include "support/jetty.hpp"

using namespace tideover;
using namespace tideover::finding;
using namespace tideover::quantity;
using namespace tideover::quantity::literals;
using test::jetty;

namespace {

const Source& source_of(const Feeding& feeding, const std::string& part) {
  for (const Source& source : feeding.sources()) {
    if (source.part->name == part) return source;
  }
  FAIL("no such source: ", part);
  return feeding.sources().front();
}

// Three in series of 25 mOhm cells and nothing else, full at 4.2 V.
std::unique_ptr<part::Pack> pack_of(int parallel) {
  auto pack = std::make_unique<part::Pack>();
  pack->name = "pack";
  pack->series = 3;
  pack->parallel = parallel;
  pack->cell.charge_to = Value<Volt>(4.2_V);
  pack->cell.discharge_to = Value<Volt>(3.0_V);
  pack->link_resistance = Value<Ohm>(0.0_Ohm);
  for (const auto soc : {0_percent, 100_percent}) {
    part::ResistancePoint point;
    point.soc = Value<Ratio>(soc);
    point.resistance = Value<Ohm>(25_mOhm);
    pack->cell.resistance.push_back(point);
  }
  return pack;
}

Ampere prospective_of(int parallel, Ohm wiring) {
  build::Build build;
  build.parts.push_back(pack_of(parallel));
  return highest_prospective(sources_of(build).front(), Path{.resistance = wiring});
}

}  // namespace

TEST_CASE("a pack drives its voltage over the resistance of its cells into a short circuit") {
  // Worked by hand after I = U / R, the method of a public page on prospective current (read).
  CHECK(tests::relative_error(prospective_of(1, 0.0_Ohm).si(), 168.0) < 1e-12);
  CHECK(tests::relative_error(prospective_of(3, 0.0_Ohm).si(), 504.0) < 1e-12);
  CHECK(tests::relative_error(prospective_of(3, 25_mOhm).si(), 252.0) < 1e-12);
}

TEST_CASE("the smallest fuse in the way sets what a source may feed for good") {
  const build::Build build = jetty();
  const Feeding feeding(build);
  const Source& pack = source_of(feeding, "pack");
  const auto at_bar = feeding.feed(pack, {"bar", "w6"});
  REQUIRE(at_bar);
  CHECK(at_bar->most_a == 5.0);
  CHECK(at_bar->fuse->name == "f_pack");
  const auto at_lamp = feeding.feed(pack, {"lamp", "plus"});
  REQUIRE(at_lamp);
  CHECK(at_lamp->most_a == 1.0);
  CHECK(at_lamp->fuse->name == "f_lamp");
  const auto before_fuse = feeding.feed(pack, {"f_pack", "a"});
  REQUIRE(before_fuse);
  CHECK(before_fuse->is_unlimited());
}

TEST_CASE("what limits itself below the fuses sets it by itself") {
  const build::Build build = jetty();
  const Feeding feeding(build);
  const auto at_charger = feeding.feed(source_of(feeding, "shore"), {"charger", "in_plus"});
  REQUIRE(at_charger);
  CHECK(at_charger->most_a == doctest::Approx(2.5));
  CHECK(at_charger->fuse == nullptr);
}

TEST_CASE("current that comes in by one contact of a pole does not go out by the other") {
  const build::Build build = jetty();
  const Feeding feeding(build);
  const Source& shore = source_of(feeding, "shore");
  CHECK(feeding.feed(shore, {"horn", "plus"}));
  CHECK_FALSE(feeding.feed(shore, {"up12", "out_plus"}));
}

TEST_CASE("a step-up lets a short circuit behind it draw on the pack") {
  const build::Build build = jetty();
  const Feeding feeding(build);
  const auto at_horn = feeding.feed(source_of(feeding, "pack"), {"horn", "plus"});
  REQUIRE(at_horn);
  CHECK(at_horn->most_a == 5.0);
  // It is no source of its own current, though its voltage counts.
  const auto feeds = feeding.feeds({"horn", "plus"});
  CHECK(std::ranges::none_of(feeds,
                             [](const Feed& one) { return one.source->part->name == "up12"; }));
  CHECK(feeding.highest_voltage({"horn", "plus"}).si() == doctest::Approx(12.726));
}

TEST_CASE("a step-down that does not block feeds its input backwards, but not out of nothing") {
  const build::Build build =
      jetty({{"charger.topology", "'step-down'"}, {"charger.blocks_back", "false"}});
  const Feeding feeding(build);
  CHECK(feeding.feed(source_of(feeding, "pack"), {"charger", "in_plus"}));
  CHECK_FALSE(feeding.feed(source_of(feeding, "charger"), {"charger", "in_plus"}));
  const build::Build blocked =
      jetty({{"charger.topology", "'step-down'"}, {"charger.blocks_back", "true"}});
  const Feeding sound(blocked);
  CHECK_FALSE(sound.feed(source_of(sound, "pack"), {"charger", "in_plus"}));
}

TEST_CASE("resistance and wire add up along the way, there and back for the least current") {
  const build::Build build = jetty();
  const Feeding feeding(build);
  const Source& pack = source_of(feeding, "pack");
  const Path path = feeding.path(pack, {"lamp", "plus"});
  CHECK(path.wire.si() == doctest::Approx(0.06 + 0.2 + 0.2 + 0.15 + 3.0));
  CHECK(path.resistance > path.leads);
  const Ampere high = highest_prospective(pack, path);
  const Ampere low = lowest_prospective(pack, path);
  CHECK(high.si() ==
        doctest::Approx((pack.highest / (pack.least_resistance + path.resistance)).si()));
  CHECK(
      low.si() ==
      doctest::Approx((pack.lowest / (pack.most_resistance + path.resistance + path.leads)).si()));
}

TEST_CASE("fuses in the way are those without which nothing comes through") {
  const build::Build build = jetty();
  const Feeding feeding(build);
  const Source& pack = source_of(feeding, "pack");
  const auto at_lamp = feeding.fuses_in_the_way(pack, {"lamp", "plus"});
  REQUIRE(at_lamp.size() == 2);
  CHECK(at_lamp[0]->name == "f_lamp");
  CHECK(at_lamp[1]->name == "f_pack");
  CHECK(feeding.unfused(pack, {"f_pack", "a"}).value().si() == doctest::Approx(0.06));
  CHECK_FALSE(feeding.unfused(pack, {"bar", "w1"}).has_value());
}

TEST_CASE("current comes back through the board to the pack's minus") {
  const build::Build build = jetty();
  const Feeding feeding(build);
  const Source& pack = source_of(feeding, "pack");
  CHECK(feeding.returns(pack, {"lamp", "minus"}));
  CHECK_FALSE(feeding.returns(pack, {"lamp", "plus"}));
  const auto lead = std::ranges::find(build.leads, "lamp_return", &build::Lead::name);
  CHECK_FALSE(feeding.returns(pack, {"lamp", "minus"}, &*lead));
}

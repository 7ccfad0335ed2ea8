#include "finding/lead_loss.hpp"

#include <doctest/doctest.h>

#include "part/fuse/fuse.hpp"
#include "part/load/load.hpp"
#include "part/terminal_block/terminal_block.hpp"

using namespace tideover;
using namespace tideover::quantity;
using namespace tideover::quantity::literals;
using finding::way_losses;

namespace {

template <class Kind>
std::unique_ptr<Kind> part_named(const std::string& name) {
  auto part = std::make_unique<Kind>();
  part->name = name;
  return part;
}

build::Lead lead(const std::string& name, build::TerminalName from, build::TerminalName to,
                 double mm2, double m) {
  build::Lead made{name, std::move(from), std::move(to), {}};
  made.wire.size = Value<SquareMetre>(SquareMetre::of_si(mm2 * 1e-6));
  made.wire.length = Value<Metre>(Metre::of_si(m));
  made.wire.joints = Value<Ohm>(0.0_Ohm);
  return made;
}

// Two loads of one ampere each behind one bar: feed (2 A) - bar - f - lamp, bar - pump.
build::Build two_loads() {
  build::Build build;
  build.parts.push_back(part_named<part::Load>("lamp"));
  build.parts.push_back(part_named<part::Load>("pump"));
  build.parts.push_back(part_named<part::Fuse>("f"));
  build.parts.push_back(part_named<part::TerminalBlock>("bar"));
  build.leads = {lead("feed", {"source", "plus"}, {"bar", "w1"}, 1.5, 1.0),
                 lead("to_fuse", {"bar", "w2"}, {"f", "a"}, 0.75, 1.0),
                 lead("to_lamp", {"f", "b"}, {"lamp", "plus"}, 0.75, 10.0),
                 lead("to_pump", {"bar", "w3"}, {"pump", "plus"}, 0.75, 3.0)};
  return build;
}

// Constant currents for a hundred seconds.
run::Record steady() {
  run::Record record;
  const auto put = [&](const std::string& part, const std::string& name, Dimension dimension,
                       double si) {
    record.channels.push_back({part, name, dimension});
    record.samples_si.push_back({si, si});
    record.lowest.push_back({si, {}});
    record.highest.push_back({si, {}});
  };
  record.instants = {0.0_s, 100.0_s};
  for (const char* load : {"lamp", "pump"}) {
    put(load, "input voltage", Volt::dimension, 12.0);
    put(load, "current", Ampere::dimension, 1.0);
    record.services.push_back({load, {{0.0_s, 100.0_s}}});
  }
  put("leads.feed", "current", Ampere::dimension, 2.0);
  put("leads.to_fuse", "current", Ampere::dimension, 1.0);
  // Counted the other way round by whoever wrote the sheet.
  put("leads.to_lamp", "current", Ampere::dimension, -1.0);
  put("leads.to_pump", "current", Ampere::dimension, 1.0);
  return record;
}

}  // namespace

TEST_CASE("a load's own leads run through its fuse to the point where paths meet") {
  const build::Build build = two_loads();
  const auto ways = finding::way_losses(build, steady(), 20.0_degC);
  REQUIRE(ways.size() == 2);
  CHECK(ways[0].leads == std::vector<std::string>{"to_lamp", "to_fuse"});
  CHECK(ways[1].leads == std::vector<std::string>{"to_pump"});
  // Two loads of one current do not count each other's leads: they meet at the bar only.
  const Volt drop = 1.0_A * (build.leads[1].wire.resistance(20.0_degC) +
                             build.leads[2].wire.resistance(20.0_degC));
  CHECK(ways[0].drop.si() == doctest::Approx(drop.si()).epsilon(1e-6));
  CHECK(ways[0].share() == doctest::Approx(drop.si() / 12.0).epsilon(1e-6));
}

TEST_CASE("what a lead drops and loses follows from its current and its resistance") {
  const build::Build build = two_loads();
  const auto losses = finding::lead_losses(build, steady(), 20.0_degC);
  REQUIRE(losses.size() == 4);
  const double r_ohm = build.leads[0].wire.resistance(20.0_degC).si();
  CHECK(losses[0].lasting.si() == doctest::Approx(2.0).epsilon(1e-5));
  CHECK(losses[0].drop.si() == doctest::Approx(2.0 * r_ohm).epsilon(1e-5));
  CHECK(losses[0].lost.si() == doctest::Approx(4.0 * r_ohm * 100.0).epsilon(1e-5));
  const double allowed_a = build.leads[0].wire.ampacity(20.0_degC).current.si();
  CHECK(losses[0].ampacity.si() == doctest::Approx(2.0 / allowed_a).epsilon(1e-5));
  CHECK(finding::lead_losses(build, {}, 20.0_degC).empty());
}

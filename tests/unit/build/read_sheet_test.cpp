#include "build/read_sheet.hpp"

#include <doctest/doctest.h>

#include "part/adapter/adapter.hpp"
#include "part/fuse/fuse.hpp"
#include "part/load/load.hpp"
#include "part/pack/pack.hpp"
#include "part/switch/switch.hpp"
#include "shelf/shelf.hpp"

using namespace tideover;
using namespace tideover::quantity::literals;
using build::Change;
using build::Until;
using quantity::Origin;

namespace {

constexpr std::string_view cells = R"(
[small]
source = "invented"
origin = "measured"
capacity = "2 Ah +/- 2 %"
charge_to = "4.2 V"
discharge_to = "2.5 V"
charge_current = "1 A"
discharge_current = "4 A"
heat_capacity = { value = "45 J/K", origin = "assumed", source = "its own" }
rest = [{ soc = "0 %", voltage = "2.5 V" }, { soc = "100 %", voltage = "4.2 V" }]
resistance = [{ soc = "50 %", resistance = "20 mOhm" }, { soc = "60 %", resistance = "21 mOhm" }]
)";

const shelf::Shelf& test_shelf() {
  static const std::vector<shelf::ShelfFile> files{
      {"cell.toml", cells},
      {"fuse.toml",
       "[slow-2a]\nsource = \"invented\"\nrated = \"2 A\"\nresistance = \"50 mOhm\"\n"},
      {"wire.toml", "[hook-up]\nsource = \"invented\"\nsize = \"0.75 mm2\"\n"}};
  static const shelf::Shelf shelf(files);
  return shelf;
}

constexpr std::string_view whole_sheet = R"(
[sheet]
title = "Tide-gauge hut"

[start]
pack = { charge = "80 %", temperature = "10 degC" }

[leads.gauge_plus]
between = ["f1.b", "gauge.plus"]
from = "shelf:hook-up"
length = "180 mm"
colour = "RD"

[leads.mains_plus]
between = ["mains24.plus", "s1.common"]
size = "20 AWG"
length = "1.2 m"

[joins.rail]
terminals = ["s1.way1", "f1.a", "pack.plus"]

[joins.common]
terminals = ["mains24.minus", "gauge.minus", "pack.minus"]

[needs]
outlast = "4 h"
recharge = "14 h"
ambient = "2 degC to 35 degC"
life = "5 yr"

[parts.gauge]
kind = "load"
accepts = "6 V to 9 V"
rides = "10 ms"
profile = [
  { name = "quiet", draws = "1 W", lasts = "50 s" },
  { name = "busy", draws = { value = "3 W +/- 5 %", origin = "measured" }, lasts = "10 s" },
]

[parts.mains24]
kind = "adapter"
output = "8.4 V +/- 1 %"
rated = "1.5 A"
overload = "hiccup"
earthed = true

[parts.s1]
kind = "switch"

[parts.f1]
kind = "fuse"
from = "shelf:slow-2a"
resistance = { value = "60 mOhm", origin = "measured" }

[parts.pack]
kind = "pack"
cell = { from = "shelf:small", capacity = "1.9 Ah", resistance = [{ soc = "50 %", resistance = "30 mOhm" }] }
series = 2
note = "from the winter order"

[timelines.storm]
repeats = 3

[[timelines.storm.stretch]]
mains = "present"
lasts = "30 min"

[[timelines.storm.stretch]]
mains = { mains24 = "unplugged" }
switches = { s1 = 0 }
profiles = { gauge = "busy" }
ambient = "-5 degC"
lasts = "12 h"
until = "all loads lost"
)";

build::Build read_whole() {
  auto read = build::read_sheet(whole_sheet, "sheet.toml", test_shelf());
  if (!read) FAIL(base::show(read.problems()));
  return std::move(read).value();
}

base::Problems problems_of(const std::string& text) {
  const auto read = build::read_sheet(text, "sheet.toml", test_shelf());
  return read ? base::Problems{} : read.problems();
}

}  // namespace

TEST_CASE("given a whole sheet, when it is read, then its parts have their values") {
  const build::Build build = read_whole();
  CHECK(build.title == "Tide-gauge hut");
  CHECK(build.file == "sheet.toml");
  CHECK(build.needs.outlast.nominal() == 4_h);
  CHECK(build.needs.ambient.high() == 35_degC);
  REQUIRE(build.parts.size() == 5);
  CHECK(build.parts[0]->name == "gauge");  // in the order of the sheet
  CHECK(build.parts[4]->name == "pack");
  CHECK(build.parts[4]->note == "from the winter order");
  const auto& adapter = dynamic_cast<const part::Adapter&>(*build.find("mains24"));
  CHECK(adapter.output.high_si == doctest::Approx(8.484));
  CHECK(adapter.overload == part::Overload::Hiccup);
  CHECK(adapter.earthed);
  const auto& load = dynamic_cast<const part::Load&>(*build.find("gauge"));
  REQUIRE(load.profile.size() == 2);
  CHECK(load.profile[1].name == "busy");
  CHECK(load.profile[1].draws.origin == Origin::Measured);
  CHECK(load.rides.given);
  CHECK_FALSE(load.boot.given);
}

TEST_CASE("given a row of the shelf, then it is taken and what the sheet says goes before it") {
  const build::Build build = read_whole();
  const auto& fuse = dynamic_cast<const part::Fuse&>(*build.find("f1"));
  CHECK(fuse.rated.nominal() == 2_A);
  CHECK(fuse.rated.origin == Origin::Typical);  // the row states none
  CHECK(fuse.rated.source == "invented");
  CHECK(fuse.resistance.nominal() == 60_mOhm);
  CHECK(fuse.resistance.origin == Origin::Measured);
  CHECK(fuse.resistance.source == "");
  const auto& pack = dynamic_cast<const part::Pack&>(*build.find("pack"));
  CHECK(pack.series == 2);
  CHECK(pack.cell.capacity.nominal() == 1.9_Ah);
  CHECK(pack.cell.capacity.origin == Origin::Assumed);
  CHECK(pack.cell.charge_to.origin == Origin::Measured);
  CHECK(pack.cell.heat_capacity.origin == Origin::Assumed);
  CHECK(pack.cell.heat_capacity.source == "its own");
  CHECK(pack.cell.rest.size() == 2);
  REQUIRE(pack.cell.resistance.size() == 1);  // the sheet's list replaces the row's
  CHECK(pack.cell.resistance[0].resistance.nominal() == 30_mOhm);
  CHECK(build.leads[0].wire.size.nominal() == 0.75_mm2);
}

TEST_CASE("given leads and joins, then they keep names, ends, wire and order") {
  const build::Build build = read_whole();
  REQUIRE(build.leads.size() == 2);
  CHECK(build.leads[0].name == "gauge_plus");
  CHECK(build.leads[0].from == build::TerminalName{"f1", "b"});
  CHECK(build.leads[0].to == build::TerminalName{"gauge", "plus"});
  CHECK(build.leads[0].wire.colour == "RD");
  CHECK(build.leads[0].wire.length.nominal() == 180_mm);
  // ASTM B258 by the formula: 20 AWG has 0.5189 mm2 of solid wire.
  CHECK(build.leads[1].wire.size.si() == doctest::Approx(0.518e-6).epsilon(2e-3));
  REQUIRE(build.joins.size() == 2);
  CHECK(build.joins[0].name == "rail");
  CHECK(build.joins[0].terminals.size() == 3);
}

TEST_CASE("given a timeline, then each stretch has its changes and its end") {
  const build::Build build = read_whole();
  REQUIRE(build.timelines.size() == 1);
  const build::Timeline& storm = build.timelines[0];
  CHECK(storm.repeats == 3);
  REQUIRE(storm.stretches.size() == 2);
  CHECK(storm.stretches[0].changes.at(0).part.empty());  // all adapters
  CHECK(storm.stretches[0].changes[0].mains == Change::Mains::Present);
  CHECK(storm.stretches[0].lasts->nominal() == 30_min);
  CHECK(storm.stretches[0].until == Until::Time);
  const build::Stretch& dark = storm.stretches[1];
  REQUIRE(dark.changes.size() == 4);
  CHECK(dark.changes[0].part == "mains24");
  CHECK(dark.changes[0].mains == Change::Mains::Unplugged);
  CHECK(dark.changes[1].what == Change::What::Switch);
  CHECK(dark.changes[1].position == 0);
  CHECK(dark.changes[2].profile == "busy");
  CHECK(dark.changes[3].ambient.nominal() == quantity::Temperature::of_celsius(-5.0));
  CHECK(dark.until == Until::AllLoadsLost);
  CHECK(dark.place.line > 0);
}

TEST_CASE("given every word for how a stretch ends, then it is that end") {
  const std::vector<std::pair<std::string, Until>> words{{"first load lost", Until::FirstLoadLost},
                                                         {"all loads lost", Until::AllLoadsLost},
                                                         {"pack cut off", Until::PackCutOff},
                                                         {"pack full", Until::PackFull},
                                                         {"loads served", Until::LoadsServed}};
  for (const auto& [word, until] : words) {
    const auto read = build::read_sheet(
        "[needs]\noutlast = \"1 h\"\n[parts.b]\nkind = \"box\"\n[[timelines.t.stretch]]\nuntil = "
        "\"" +
            word + "\"\n",
        "sheet.toml", test_shelf());
    REQUIRE(read.has_value());
    CHECK(read.value().timelines[0].stretches[0].until == until);
  }
}

TEST_CASE("given a stated start, then it is kept, without one the build starts settled") {
  const build::Build build = read_whole();
  CHECK(build.start.charge.at("pack").nominal() == 80_percent);
  CHECK(build.start.temperature.at("pack").nominal() == 10_degC);
  CHECK(build.start.is_settled);
}

TEST_CASE("given a build, then a copy of it shares nothing with it") {
  const build::Build build = read_whole();
  const build::Build twin = build.copy();
  CHECK(twin.parts.size() == build.parts.size());
  CHECK(twin.find("pack") != build.find("pack"));
  CHECK(twin.find("nobody") == nullptr);
}

TEST_CASE("given a faulty part, then its terminals and leads are not faulted on top") {
  const base::Problems problems = problems_of(R"(
[needs]
outlast = "4 h"
[parts.mains24]
kind = "adapter"
output = "24 A"
rated = "1.5 A"
[parts.gauge]
kind = "load"
draws = "3 W"
accepts = "20 V to 28 V"
[leads.plus]
between = ["mains24.plus", "gauge.plus"]
size = "1 mm2"
length = "1 m"
)");
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].text.find("24 A: a current") != std::string::npos);
}

TEST_CASE("given a syntax error, then values are still checked but nothing is called missing") {
  const base::Problems problems = problems_of(R"(
[needs]
outlast = 4 h
[parts.gauge
kind = "load"
[parts.mains24]
kind = "adapter"
output = "24 A"
[leads.plus]
between = ["mains24.plus", "gauge.plus"]
size = "1 mm2"
length = "1 m"
)");
  REQUIRE(problems.size() == 3);
  CHECK(problems[0].place.line == 3);
  CHECK(problems[1].place.line == 4);
  CHECK(problems[2].place.line == 8);
}

TEST_CASE("given leads of a chain through parts, then only wire can short a source") {
  // A load hangs between plus and minus, and a fuse in the way is no wire.
  CHECK(problems_of(R"(
[needs]
outlast = "4 h"
[parts.mains24]
kind = "adapter"
output = "24 V"
rated = "1.5 A"
[parts.f1]
kind = "fuse"
rated = "1 A"
[joins.a]
terminals = ["mains24.plus", "f1.a"]
[joins.b]
terminals = ["mains24.minus", "f1.b"]
)")
            .empty());
}

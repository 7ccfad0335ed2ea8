// Broken wiring in a run: given one lamp on one adapter, when something breaks, then...
#include <doctest/doctest.h>

#include "build/read_sheet.hpp"
#include "build/variation.hpp"
#include "run/run.hpp"
#include "shelf/shelf.hpp"

using namespace tideover;

namespace {

const char* const sheet = R"(
[needs]
outlast = "10 min"
[parts.lamp]
kind = "load"
draws_resistance = "12 Ohm"
accepts = "10 V to 14 V"
[parts.wall]
kind = "adapter"
output = "12 V"
rated = "3 A"
source_resistance = "0.05 Ohm"
lead_resistance = "0.01 Ohm"
[leads.there]
between = ["wall.plus", "lamp.plus"]
size = "1.5 mm2"
length = "100 mm"
[leads.back]
between = ["lamp.minus", "wall.minus"]
size = "1.5 mm2"
length = "100 mm"
)";

build::Build lamp_build() {
  auto read = build::read_sheet(sheet, "lamp.toml", shelf::built_in_shelf());
  REQUIRE_MESSAGE(read.has_value(), (read ? "" : read.problems().front().text));
  return std::move(read).value();
}

build::Timeline ten_minutes_with_a_fault_in_the_middle() {
  build::Stretch sound;
  sound.lasts = quantity::Value<quantity::Second>(quantity::Second::of_si(300.0));
  build::Stretch broken = sound;
  broken.changes.push_back({.what = build::Change::What::Defects, .part = ""});
  return {"fault", {sound, broken}, 1};
}

run::Record run_with(std::vector<build::Defect> defects) {
  build::Build build = lamp_build();
  build.defects = std::move(defects);
  base::NoProgress nobody;
  run::Record record = run::run(build, ten_minutes_with_a_fault_in_the_middle(), {}, {}, nobody);
  CHECK(record.outcome.ended == hybrid::Ended::AtTime);
  return record;
}

double last_of(const run::Record& record, const std::string& part, const std::string& name) {
  const int channel = record.find(part, name);
  REQUIRE_MESSAGE(channel >= 0, name);
  return record.samples_si[static_cast<std::size_t>(channel)].back();
}

double first_of(const run::Record& record, const std::string& part, const std::string& name) {
  const int channel = record.find(part, name);
  REQUIRE_MESSAGE(channel >= 0, name);
  return record.samples_si[static_cast<std::size_t>(channel)].front();
}

build::Defect at_lamp(part::Damage::What what, const std::string& other = {},
                      double resistance_ohm = 0.0) {
  return {.what = what,
          .terminal = {"lamp", "plus"},
          .other = {"lamp", other},
          .resistance = quantity::Ohm::of_si(resistance_ohm)};
}

}  // namespace

TEST_CASE("given a lamp, when its lead comes off in the middle, then it serves until then") {
  build::Defect off = build::lead_open("there");
  off.arises_later = true;
  const run::Record record = run_with({off});
  CHECK(first_of(record, "leads.there", "current") == doctest::Approx(1.0).epsilon(0.02));
  CHECK(last_of(record, "leads.there", "current") == doctest::Approx(0.0));
  REQUIRE(record.services.size() == 1);
  REQUIRE(record.services[0].served.size() == 1);
  CHECK(record.services[0].served[0].to.si() == doctest::Approx(300.0).epsilon(0.001));
}

TEST_CASE("a lead that is off from the start never serves") {
  const run::Record record = run_with({build::lead_open("back")});
  CHECK(record.services.at(0).served.empty());
}

TEST_CASE("a loose screw drops what its resistance takes of the loop") {
  using What = part::Damage::What;
  const run::Record loose_lead = run_with({build::lead_loose("there", quantity::Ohm::of_si(1.0))});
  CHECK(last_of(loose_lead, "leads.there", "current") ==
        doctest::Approx(12.0 / 13.06).epsilon(0.01));
  const run::Record loose_screw = run_with({at_lamp(What::Resistive, "", 1.0)});
  CHECK(last_of(loose_screw, "leads.there", "current") ==
        doctest::Approx(12.0 / 13.06).epsilon(0.01));
}

TEST_CASE("an open terminal is open though its lead still ends there") {
  const run::Record record = run_with({at_lamp(part::Damage::What::Open)});
  CHECK(last_of(record, "leads.there", "current") == doctest::Approx(0.0));
}

TEST_CASE("a bridge across the lamp takes all the adapter gives, and the lamp goes out") {
  build::Defect bridge = at_lamp(part::Damage::What::Bridged, "minus", 0.02);
  bridge.arises_later = true;
  const run::Record record = run_with({bridge});
  CHECK(last_of(record, "leads.there", "current") > 3.0);
  CHECK(record.services.at(0).served.at(0).to.si() == doctest::Approx(300.0).epsilon(0.001));
}

TEST_CASE("a lamp with its wires exchanged stands at the same voltage the other way round") {
  const run::Record sound = run_with({});
  const run::Record wrong = run_with({at_lamp(part::Damage::What::Exchanged, "minus")});
  CHECK(last_of(wrong, "lamp", "input voltage") ==
        doctest::Approx(-last_of(sound, "lamp", "input voltage")).epsilon(0.02));
}

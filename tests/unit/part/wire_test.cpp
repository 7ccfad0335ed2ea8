// The conductor of a lead: resistance, lasting current, withstand, colour.
#include "part/wire/wire.hpp"

#include <cmath>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "part/wire/gauge.hpp"
#include "part/wire/short_circuit.hpp"

namespace {

using namespace tideover;
using namespace tideover::quantity::literals;
using part::Laid;
using part::Wire;
using quantity::Ampere;
using quantity::Metre;
using quantity::SquareMetre;
using quantity::Temperature;
using quantity::Value;

Wire lead(SquareMetre size, Metre length) {
  Wire wire;
  wire.size = Value(size);
  wire.length = Value(length);
  return wire;
}

double between(double low, double high) {
  return low + (high - low) * 1e-6 * *rc::gen::inRange(0, 1000001);
}

Wire any_lead() {
  Wire wire = lead(SquareMetre::of_si(std::exp(between(std::log(0.02e-6), std::log(50e-6)))),
                   Metre::of_si(between(0.01, 20.0)));
  wire.material = static_cast<part::ConductorMaterial>(*rc::gen::inRange(0, 2));
  wire.strand = static_cast<part::Strand>(*rc::gen::inRange(0, 3));
  wire.laid = static_cast<Laid>(*rc::gen::inRange(0, 3));
  wire.loaded_beside = *rc::gen::inRange(1, 70);
  return wire;
}

}  // namespace

TEST_CASE("given 180 mm of 0.75 mm2, then its resistance is that of the table plus its joints") {
  const Wire wire = lead(0.75_mm2, 180_mm);
  CHECK(wire.resistance(20_degC).si() == doctest::Approx(0.18 * 26.0e-3 + 0.001));
}

TEST_CASE("given a lead by gauge, then resistivity over area counts, with the lay of its strands") {
  Wire wire = lead(part::gauge_area(20), 1_m);
  wire.joints = Value(0_Ohm);
  CHECK(wire.resistance(20_degC).si() == doctest::Approx(1.02 * 33.31e-3).epsilon(1e-3));
  wire.strand = part::Strand::Solid;
  CHECK(wire.resistance(20_degC).si() == doctest::Approx(33.31e-3).epsilon(1e-3));
}

TEST_CASE("a class that a size does not come in has no table: solid 0.25 mm2 goes by its area") {
  Wire wire = lead(0.25_mm2, 1_m);
  wire.strand = part::Strand::Solid;
  wire.joints = Value(0_Ohm);
  CHECK(wire.resistance(20_degC).si() == doctest::Approx(17.241e-3 / 0.25).epsilon(1e-9));
}

TEST_CASE("no lead is without resistance") {
  Wire wire = lead(16_mm2, 1_mm);
  wire.joints = Value(0_Ohm);
  CHECK(wire.resistance(20_degC).si() >= 1e-5);
}

TEST_CASE("the answer names the table it came from, and thin wire has one of its own") {
  CHECK(lead(0.75_mm2, 1_m).ampacity(30_degC).table == "VDE 0298-4 group 1");
  CHECK(lead(part::gauge_area(24), 1_m).ampacity(30_degC).table == "EEE-INST-002 bundled");
  CHECK(lead(part::gauge_area(32), 1_m).ampacity(30_degC).table == "700 circular mils per ampere");
  Wire single = lead(4_mm2, 1_m);
  single.laid = Laid::Single;
  CHECK(single.ampacity(40_degC).table == "IEC 60204-1 C");
  CHECK(single.ampacity(40_degC).current.si() == doctest::Approx(28.0));
}

TEST_CASE("0.75 mm2 in a bundle of seven at 45 degC: 9 A times 0.65 times 0.79") {
  Wire wire = lead(0.75_mm2, 1_m);
  wire.loaded_beside = 7;
  CHECK(wire.ampacity(45_degC).current.si() ==
        doctest::Approx(9.0 * 0.65 * std::sqrt(25.0 / 40.0)));
}

TEST_CASE("a full bundle's table takes no further factor for grouping") {
  Wire wire = lead(part::gauge_area(24), 1_m);
  wire.insulation = Value(200_degC);
  wire.loaded_beside = 20;
  CHECK(wire.ampacity(70_degC).current.si() == doctest::Approx(2.0).epsilon(1e-3));
}

TEST_CASE("where tables disagree, the builder says which one counts") {
  Wire wire = lead(0.75_mm2, 180_mm);
  CHECK(wire.ampacity(40_degC).table == "VDE 0298-4 group 1");
  wire.ampacity_table = "IEC 60204-1 B1";
  CHECK(wire.contradictions().empty());
  CHECK(wire.ampacity(40_degC).table == "IEC 60204-1 B1");
  CHECK(wire.ampacity(40_degC).current.si() == doctest::Approx(8.6));
  wire.ampacity_table = "older VDE list group 2";
  CHECK(wire.ampacity(30_degC).current.si() == doctest::Approx(12.0));
  wire.ampacity_table = "700 circular mils per ampere";
  CHECK(wire.contradictions().empty());
  CHECK(wire.ampacity(30_degC).current.si() == doctest::Approx(0.75 / 0.3547).epsilon(1e-3));
}

TEST_CASE("a table that is not there, or says nothing of the size, is told with what there is") {
  Wire wire = lead(0.25_mm2, 180_mm);
  wire.ampacity_table = "IEC 60204-1 B2";
  REQUIRE(wire.contradictions().size() == 1);
  CHECK(wire.contradictions().front() ==
        "ampacity_table: `IEC 60204-1 B2` says nothing of 0.25 mm2; it goes from 0.75 to 4 mm2");
  wire.ampacity_table = "my own";
  REQUIRE(wire.contradictions().size() == 1);
  CHECK(wire.contradictions().front().starts_with(
      "ampacity_table: there is no table `my own`; there are `VDE 0298-4 group 1`, "));
}

TEST_CASE("copper-clad aluminium carries less and resists more than the copper it looks like") {
  Wire copper = lead(0.75_mm2, 1_m);
  Wire clad = copper;
  clad.material = part::ConductorMaterial::CopperCladAluminium;
  CHECK(clad.resistance(20_degC).si() > 1.5 * (copper.resistance(20_degC).si() - 0.001));
  CHECK(clad.ampacity(30_degC).current.si() ==
        doctest::Approx(copper.ampacity(30_degC).current.si() * std::sqrt(0.629)));
  CHECK(clad.withstand() < copper.withstand());
}

TEST_CASE(
    "at its ampacity a lead reaches what its insulation stands, at half of it a quarter of the "
    "rise") {
  const Wire wire = lead(1_mm2, 1_m);
  const Ampere full = wire.ampacity(30_degC).current;
  CHECK(wire.temperature_at(full, 30_degC).celsius() == doctest::Approx(70.0));
  CHECK(wire.temperature_at(full * 0.5, 30_degC).celsius() == doctest::Approx(40.0));
  CHECK(wire.temperature_at(Ampere{}, 30_degC).celsius() == doctest::Approx(30.0));
}

TEST_CASE("in air as hot as its insulation a lead is hotter than that at any current") {
  const Wire wire = lead(1_mm2, 1_m);
  CHECK(wire.temperature_at(1_A, 75_degC) > 75_degC);
}

TEST_CASE("a lead stands a short circuit by k2S2 from the lasting limit of its insulation") {
  CHECK(lead(0.5_mm2, 1_m).withstand().si() == doctest::Approx(3306.0).epsilon(1e-3));
  Wire cross_linked = lead(0.5_mm2, 1_m);
  cross_linked.insulation = Value(90_degC);
  // IEC 60364-4-43 table 43A prints k = 143 for 90 to 250 degC (from memory).
  CHECK(std::sqrt(cross_linked.withstand().si()) / 0.5 == doctest::Approx(143.0).epsilon(2e-3));
}

TEST_CASE("a wrong colour is told under its key, no colour is none of our business") {
  Wire wire = lead(1_mm2, 1_m);
  CHECK(wire.contradictions().empty());
  wire.colour = "BURD";
  REQUIRE(wire.contradictions().size() == 1);
  CHECK(wire.contradictions().front() == "colour: `BURD` is out of order; IEC 60757 writes RDBU");
  wire.colour = "RDBU";
  CHECK(wire.contradictions().empty());
}

TEST_CASE("longer, hotter, thinner: more resistance, hotter, thinner: less current") {
  CHECK(rc::check("wire is monotone", [] {
    const Wire wire = any_lead();
    const auto at = Temperature::of_celsius(between(0.0, 60.0));
    const auto hotter = at + quantity::Kelvin::of_si(5.0);
    Wire longer = wire;
    longer.length = Value(wire.length.nominal() * 1.5);
    RC_ASSERT(longer.resistance(at) > wire.resistance(at));
    RC_ASSERT(wire.resistance(hotter) > wire.resistance(at));
    RC_ASSERT(wire.ampacity(hotter).current <= wire.ampacity(at).current);
    Wire thicker = wire;
    thicker.size = Value(wire.size.nominal() * 1.6);
    RC_ASSERT(thicker.withstand() > wire.withstand());
    RC_ASSERT(thicker.resistance(at) < wire.resistance(at));
  }));
}

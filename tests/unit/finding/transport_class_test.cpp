// How a pack may be sent.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "part/pack/pack.hpp"

using namespace tideover;
using namespace tideover::finding;
using namespace tideover::quantity;
using namespace tideover::quantity::literals;

namespace {

// Cells whose rest voltage has this mean.
Finding of_pack(int series, int parallel, double nominal_v, double capacity_ah,
                part::Chemistry chemistry = part::Chemistry::Nmc) {
  auto pack = std::make_unique<part::Pack>();
  pack->name = "pack";
  pack->series = series;
  pack->parallel = parallel;
  pack->cell.chemistry = chemistry;
  pack->cell.capacity = Value<Coulomb>(Coulomb::of_si(3600.0 * capacity_ah));
  for (const double soc : {0.0, 1.0}) {
    part::RestPoint point;
    point.soc = Value<Ratio>(Ratio::of_si(soc));
    point.voltage = Value<Volt>(Volt::of_si(nominal_v + soc - 0.5));
    pack->cell.rest.push_back(point);
  }
  build::Build build;
  build.parts.push_back(std::move(pack));
  const auto found = transport_class().ask({build, {}});
  REQUIRE(found.size() == 1);
  CHECK(found[0].answer == Answer::Classed);
  return found[0];
}

double wh_of(const Finding& finding) { return finding.measured->value_si / 3600.0; }
bool says(const Finding& finding, const char* words) {
  return finding.sentence.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("a Wh rating is nominal voltage times capacity") {
  // Worked by hand: 3S2P and 12S of 3.6 V, 2.6 Ah, 4S of 3.2 V, 6 Ah.
  CHECK(wh_of(of_pack(3, 2, 3.6, 2.6)) == doctest::Approx(56.16));
  CHECK(wh_of(of_pack(12, 1, 3.6, 2.6)) == doctest::Approx(112.32));
  CHECK(wh_of(of_pack(4, 1, 3.2, 6.0, part::Chemistry::Lfp)) == doctest::Approx(76.8));
}

TEST_CASE("100 Wh a pack and 20 Wh a cell are the bounds of the easy class") {
  // PI 965 as restated (2016, read).
  CHECK(says(of_pack(10, 1, 3.6, 2.77), "a small battery"));   // 99.7 Wh
  CHECK(says(of_pack(10, 1, 3.6, 2.79), "class 9, UN 3480"));  // 100.4 Wh
  CHECK(says(of_pack(4, 1, 3.6, 5.5), "a small battery"));     // 19.8 Wh a cell
  const Finding large_cells = of_pack(4, 1, 3.6, 5.6);         // 20.2 Wh a cell
  CHECK(says(large_cells, "class 9, UN 3480"));
  CHECK(large_cells.limit->value_si == doctest::Approx(20.0 * 3600.0));
}

TEST_CASE("above 160 Wh no passenger carries it") {
  // From memory.
  CHECK(says(of_pack(10, 1, 3.6, 4.43), "the airline's approval"));  // 159.5 Wh
  CHECK(says(of_pack(10, 1, 3.6, 4.46), "in no passenger's baggage"));
}

TEST_CASE("lead-acid goes by rules of its own") {
  CHECK(says(of_pack(1, 1, 12.3, 7.0, part::Chemistry::LeadAcid), "UN 2800"));
}

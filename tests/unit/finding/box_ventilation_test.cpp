// Air for a lead-acid pack in a box.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "part/box/box.hpp"
#include "part/pack/pack.hpp"

using namespace tideover;
using namespace tideover::finding;
using namespace tideover::quantity;
using namespace tideover::quantity::literals;

namespace {

// A block of 12 V, 7 Ah in a box with two openings.
std::vector<Finding> with(double low_cm2, double high_cm2,
                          part::Chemistry chemistry = part::Chemistry::LeadAcid) {
  auto pack = std::make_unique<part::Pack>();
  pack->name = "pack";
  pack->cell.chemistry = chemistry;
  pack->cell.charge_to = Value<Volt>(14.4_V);
  pack->cell.capacity = Value<Coulomb>(7_Ah);
  auto box = std::make_unique<part::Box>();
  box->name = "box";
  box->vent_low = Value<SquareMetre>(SquareMetre::of_si(1e-4 * low_cm2));
  box->vent_high = Value<SquareMetre>(SquareMetre::of_si(1e-4 * high_cm2));
  build::Build build;
  build.parts.push_back(std::move(pack));
  build.parts.push_back(std::move(box));
  return box_ventilation().ask({build, {}});
}

}  // namespace

TEST_CASE("six cells of 7 Ah ask for 1.18 cm2 low and high") {
  // IEC 62485-2, from memory: Q = 0.05 x 6 x 0.02 x 7 = 0.042 m3/h, A = 28 Q = 1.176 cm2.
  const auto found = with(12.0, 12.0);
  REQUIRE(found.size() == 1);
  CHECK(found[0].answer == Answer::Holds);
  CHECK(found[0].limit->value_si == doctest::Approx(1.176e-4));
}

TEST_CASE("openings 2 % too small fail, the ones advised hold") {
  CHECK(with(1.2, 1.2)[0].answer == Answer::Tight);
  const Finding finding = with(1.15, 1.15)[0];
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.advice == "box: vent_low = vent_high = 1.3 cm2 or more.");
  CHECK(with(1.3, 1.3)[0].answer == Answer::Holds);
}

TEST_CASE("one large opening does not do for two") {
  CHECK(with(12.0, 0.0)[0].answer == Answer::Fails);
  CHECK(with(12.0, 0.0)[0].sentence.find("the high one") != std::string::npos);
}

TEST_CASE("lithium cells give off no gas in use") {
  CHECK(with(0.0, 0.0, part::Chemistry::Lfp).empty());
}

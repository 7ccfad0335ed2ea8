// Class of the highest voltage of a build.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "part/pack/pack.hpp"

using namespace tideover;
using namespace tideover::finding;
using quantity::Value;
using quantity::Volt;

namespace {

Finding of_groups(int series, double cell_v) {
  auto pack = std::make_unique<part::Pack>();
  pack->name = "pack";
  pack->series = series;
  pack->cell.charge_to = Value<Volt>(Volt::of_si(cell_v));
  build::Build build;
  build.parts.push_back(std::move(pack));
  const auto found = voltage_class().ask({build, {}});
  REQUIRE(found.size() == 1);
  CHECK(found[0].answer == Answer::Classed);
  return found[0];
}

bool is(const Finding& finding, const char* name) {
  return finding.sentence.find(name) != std::string::npos;
}

}  // namespace

TEST_CASE("fourteen lithium groups stay within 60 V, fifteen do not") {
  // IEC 62368-1, ES1 up to 60 V of direct current, from memory.
  const Finding fourteen = of_groups(14, 4.2);
  CHECK(is(fourteen, "ES1"));
  CHECK(fourteen.measured->value_si == doctest::Approx(58.8));
  CHECK(fourteen.limit->value_si == doctest::Approx(60.0));
  const Finding fifteen = of_groups(15, 4.2);
  CHECK(is(fifteen, "ES2"));
  CHECK(fifteen.measured->value_si == doctest::Approx(63.0));
}

TEST_CASE("sixteen groups of 3.65 V stay within it") {
  CHECK(is(of_groups(16, 3.65), "ES1"));
  CHECK(of_groups(16, 3.65).measured->value_si == doctest::Approx(58.4));
}

TEST_CASE("above 120 V it is the class that kills") { CHECK(is(of_groups(20, 6.1), "ES3")); }

TEST_CASE("a build without a source has no voltage to class") {
  const build::Build build;
  CHECK(voltage_class().ask({build, {}}).empty());
}

// An adapter's two voltages and what hangs on it.
#include <algorithm>

#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"

using namespace tideover::finding;
using tideover::test::ask;
using tideover::test::Changes;

namespace {

Finding of(const std::string& part, const Changes& changes) {
  const auto found = ask(adapter_voltage_fits(), changes);
  const auto at = std::ranges::find(found, part, &Finding::part);
  REQUIRE(at != found.end());
  return *at;
}

}  // namespace

TEST_CASE("24 V +/- 2 % behind 0.12 Ohm and 2 A bring 23.28 V to 24.48 V") {
  const Finding found = of("lamp", {});
  CHECK(found.answer == Answer::Holds);
  CHECK(found.sentence ==
        "mains24 brings 23.28 V at full load to 24.48 V at no load, and lamp takes 20 V to 28 V.");
}

TEST_CASE("a lamp from 23.2 V on is near, and one from 23.4 V on is not fed at full load") {
  CHECK(of("lamp", {{"lamp.accepts", "'23.2 V to 28 V'"}}).answer == Answer::Tight);
  const Finding fails = of("lamp", {{"lamp.accepts", "'23.4 V to 28 V'"}});
  CHECK(fails.answer == Answer::Fails);
  CHECK(fails.measured->value_si == doctest::Approx(23.28));
  CHECK(fails.limit->value_si == doctest::Approx(23.4));
  CHECK(fails.advice ==
        "mains24: output = 23.86 V or more at full load, or a lamp that takes less.");
}

TEST_CASE("the converter behind the pack does not hang on the adapter") {
  for (const Finding& found : ask(adapter_voltage_fits())) CHECK(found.part != "up24");
}

TEST_CASE("a measured curve counts in place of the source resistance") {
  const Finding found =
      of("lamp", {{"mains24.curve",
                   "[{ volts = '24.2 V', amps = '0 A' }, { volts = '23 V', amps = "
                   "'1.6 A' }, { volts = '22 V', amps = '2.4 A' }]"}});
  CHECK(found.sentence.starts_with("mains24 brings 22.5 V at full load to 24.48 V at no load"));
}

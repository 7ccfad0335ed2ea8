// The pulse of empty capacitors through a fuse.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include "finding/inrush.hpp"
#include "finding/rule_list.hpp"
#include "support/jetty.hpp"

using namespace tideover::finding;
using namespace tideover::quantity;
using namespace tideover::quantity::literals;
using tideover::test::ask_jetty;

namespace {

Finding with(double capacitance_uf) {
  return ask_jetty(fuse_inrush(), "f_pack",
                   {{"smooth.capacitance", fmt::format("'{} uF'", capacitance_uf)}});
}

}  // namespace

TEST_CASE("filling a capacitor through a resistance takes C U2 / 2R") {
  Source pack{.highest = 10_V, .least_resistance = 80_mOhm};
  const CapacitorBank bank{1000_uF, 10_mOhm};
  // 1 mF, 10 V and 0.1 Ohm: half a joule and a tenth of an ohm are 0.5 A2s.
  CHECK(inrush_integral(pack, bank, 10_mOhm).si() == doctest::Approx(0.5));
  // What limits itself to 2 A drives 2 A for 5 ms, after 20 mA2s out of its own capacitors.
  pack.limit = 2_A;
  pack.capacitor_resistance = 80_mOhm;
  CHECK(inrush_integral(pack, bank, 10_mOhm).si() == doctest::Approx(0.02));
}

TEST_CASE("a fuse stands a thousand pulses of 38 % of what melts it") {
  const Finding finding = with(1000.0);
  CHECK(finding.answer == Answer::Holds);
  // Largest share for 1000 pulses: a maker's published guide (read).
  const double melts = finding.limit->value_si / 0.38;
  const Finding larger = ask_jetty(fuse_inrush(), "f_pack", {{"f_pack.rated", "'10 A'"}});
  CHECK(larger.limit->value_si / 0.38 == doctest::Approx(4.0 * melts));
}

TEST_CASE("as many capacitors as it just stands are tight, 2 % more are too many") {
  // The integral is a straight line in the capacitance: only the series resistance of all stays.
  const Finding few = with(10000.0);
  const Finding many = with(20000.0);
  const double per_uf = (many.measured->value_si - few.measured->value_si) / 10000.0;
  const double just_uf = 10000.0 + (few.limit->value_si - few.measured->value_si) / per_uf;
  CHECK(with(0.98 * just_uf).answer == Answer::Tight);
  const Finding finding = with(1.02 * just_uf);
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.advice ==
        "f_pack: rated = 7.5 A or more if the leads behind it allow, or a slower one, or a soft "
        "start before the capacitors.");
  CHECK(ask_jetty(fuse_inrush(), "f_pack",
                  {{"smooth.capacitance", fmt::format("'{} uF'", 1.02 * just_uf)},
                   {"f_pack.rated", "'7.5 A'"}})
            .answer == Answer::Holds);
}

// What feeds what.
#include "finding/rails.hpp"

#include <doctest/doctest.h>

#include "finding/demand.hpp"
#include "part/charger/charger.hpp"
#include "support/beacon.hpp"

using namespace tideover;
using finding::Rails;
using test::beacon;

TEST_CASE("diodes lead one way, converters and chargers none") {
  const auto build = beacon();
  const Rails rails(build);
  CHECK(rails.feeds({"mains24", "plus"}, {"lamp", "plus"}));
  CHECK(rails.feeds({"up24", "out_plus"}, {"lamp", "plus"}));
  CHECK_FALSE(rails.feeds({"lamp", "plus"}, {"mains24", "plus"}));
  CHECK_FALSE(rails.feeds({"up24", "out_plus"}, {"mains24", "plus"}));
  CHECK_FALSE(rails.feeds({"mains24", "plus"}, {"pack", "plus"}));
  CHECK(rails.are_one({"main", "way1"}, {"down5", "in_plus"}));
}

TEST_CASE("a change-over contact is one path at a time") {
  const auto build = beacon({{"swap.kind", "'relay'"},
                             {"swap.coil_rated", "'24 V'"},
                             {"swap.coil_resistance", "'1500 Ohm'"},
                             {"leads.swap_coil.between", "['mains24.plus', 'swap.coil_plus']"},
                             {"leads.swap_coil.size", "'0.25 mm2'"},
                             {"leads.swap_coil.length", "'1 m'"},
                             {"leads.swap_back.between", "['swap.coil_minus', 'board.p_minus']"},
                             {"leads.swap_back.size", "'0.25 mm2'"},
                             {"leads.swap_back.length", "'1 m'"},
                             {"leads.swap_work.between", "['mains24.plus', 'swap.work']"},
                             {"leads.swap_work.size", "'0.75 mm2'"},
                             {"leads.swap_work.length", "'1 m'"},
                             {"leads.swap_rest.between", "['down5.out_plus', 'swap.rest']"},
                             {"leads.swap_rest.size", "'0.75 mm2'"},
                             {"leads.swap_rest.length", "'1 m'"},
                             {"leads.clock_plus.between", "['swap.common', 'clock.plus']"}});
  const Rails rails(build);
  CHECK(rails.feeds({"mains24", "plus"}, {"clock", "plus"}));
  CHECK(rails.feeds({"down5", "out_plus"}, {"clock", "plus"}));
  CHECK_FALSE(rails.feeds({"mains24", "plus"}, {"down5", "out_plus"}));
}

TEST_CASE("what hangs on a rail is added up at its peak, through the boards behind it") {
  const auto build = beacon();
  const Rails rails(build);
  const auto volts = quantity::Volt::of_si(10.0);
  const double lamp_a = 8.4 / 23.0;
  const double clock_a = 1.0 / 5.0;
  const double expected = 2.0 * 5e-3 + (23.0 + 0.3 + 0.08 * lamp_a) * lamp_a / 10.0 +
                          (5.0 + 0.3 + 0.08 * clock_a) * clock_a / 10.0;
  CHECK(finding::peak_demand(build, rails, {"pack", "plus"}, volts).si() ==
        doctest::Approx(expected));
}

TEST_CASE("converters that feed each other in a ring are followed to an end") {
  const auto build = beacon({{"leads.ring.between", "['up24.out_plus', 'down5.in_plus']"},
                             {"leads.ring.size", "'0.75 mm2'"},
                             {"leads.ring.length", "'1 m'"},
                             {"leads.ring_back.between", "['down5.out_plus', 'up24.in_plus']"},
                             {"leads.ring_back.size", "'0.75 mm2'"},
                             {"leads.ring_back.length", "'1 m'"}});
  const Rails rails(build);
  const auto drawn =
      finding::peak_demand(build, rails, {"pack", "plus"}, quantity::Volt::of_si(10.0));
  CHECK(std::isfinite(drawn.si()));
}

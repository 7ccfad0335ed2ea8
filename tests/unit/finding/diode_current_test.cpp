// Diodes against what they carry.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/rated_current.hpp"

using namespace tideover;

TEST_CASE("a diode carries what it is rated for, and not 2 % more") {
  test::expect_rated({.rule = finding::diode_current(),
                      .part = "d_horn",
                      .key = "rated",
                      .channel = "current",
                      .rating = "forward current",
                      .rated_a = 3.0,
                      .advised = "3.5 A",
                      .changes = {{"d_horn.kind", "'diode'"},
                                  {"d_horn.rated", "'3 A'"},
                                  {"leads.horn_plus.between", "['d_horn.cathode', 'horn.plus']"},
                                  {"leads.horn_diode.between", "['swap.common', 'd_horn.anode']"},
                                  {"leads.horn_diode.size", "'0.75 mm2'"},
                                  {"leads.horn_diode.length", "'100 mm'"}}});
}

// Clamps against what they carry.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/rated_current.hpp"

using namespace tideover;

TEST_CASE("the busiest clamp carries what it is rated for, and not 2 % more") {
  test::expect_rated({.rule = finding::terminal_current(),
                      .part = "bar",
                      .key = "rated",
                      .channel = "current of the busiest clamp",
                      .rating = "clamp current",
                      .rated_a = 10.0,
                      .advised = "12 A"});
}

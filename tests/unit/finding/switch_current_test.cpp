// Switches against what they carry.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/rated_current.hpp"

using namespace tideover;

TEST_CASE("a switch carries what it is rated for, and not 2 % more") {
  test::expect_rated({.rule = finding::switch_current(),
                      .part = "main",
                      .key = "rated",
                      .channel = "current",
                      .rating = "contact current",
                      .rated_a = 6.0,
                      .advised = "6.9 A"});
}

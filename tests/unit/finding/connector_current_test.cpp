// Plugs against what they carry.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/rated_current.hpp"

using namespace tideover;

TEST_CASE("a plug carries what it is rated for, and not 2 % more") {
  test::expect_rated({.rule = finding::connector_current(),
                      .part = "jack",
                      .key = "rated",
                      .channel = "current of the busiest contact",
                      .rating = "contact current",
                      .rated_a = 5.0,
                      .advised = "5.7 A"});
}

#include "papers/typeset.hpp"

#include <doctest/doctest.h>

using tideover::papers::typeset;
using tideover::papers::with_signs;

TEST_CASE("units that plain text spells out get their signs") {
  CHECK(typeset("38 degC") == "38\u00a0\u00b0C");
  CHECK(typeset("470 uF +/- 20 %") == "470\u00a0\u00b5F \u00b1 20\u00a0%");
  CHECK(typeset("12.3 mOhm, 0.75 mm2.") == "12.3\u00a0m\u03a9, 0.75\u00a0mm\u00b2.");
  CHECK(typeset("U / n <= U_cell") == "U / n \u2264 U_cell");
  CHECK(typeset("(2 degC)") == "(2\u00a0\u00b0C)");
  CHECK(typeset("at 19 degC).") == "at 19\u00a0\u00b0C).");
}

TEST_CASE("a minus before a number is a minus") {
  CHECK(typeset("-20 degC to -5.5 mV") == "\u221220\u00a0\u00b0C to \u22125.5\u00a0mV");
  CHECK(typeset("a well-known step-down") == "a well-known step-down");
}

TEST_CASE("what HTML would take for its own is made safe") {
  CHECK(typeset("a<b & \"c\"") == "a&lt;b &amp; &quot;c&quot;");
  CHECK(with_signs("a<b") == "a<b");
}

TEST_CASE("words in back quotes stay as they are") {
  CHECK(typeset("say `a = \"5 degC\"` there") == "say <code>a = &quot;5 degC&quot;</code> there");
  CHECK(typeset("a lone ` quote") == "a lone  quote");
}

TEST_CASE("nothing is nothing") { CHECK(typeset("").empty()); }

#include "base/text.hpp"

#include <cmath>
#include <cstdlib>
#include <limits>

#include <doctest/doctest.h>

using namespace tideover::base;

TEST_CASE("given bytes, when they are not UTF-8, then the first bad one is found") {
  CHECK_FALSE(first_bad_utf8("plain, µ, Ω, €, 🔋"));
  CHECK(first_bad_utf8("24 \xB5 V") == 3);         // Latin-1 micro
  CHECK(first_bad_utf8("a\xC0\x80") == 1);         // overlong NUL
  CHECK(first_bad_utf8("ab\xED\xA0\x80") == 2);    // surrogate
  CHECK(first_bad_utf8("\xF4\x90\x80\x80") == 0);  // above U+10FFFF
  CHECK(first_bad_utf8("abc\xE2\x82") == 3);       // cut short
  CHECK(first_bad_utf8("\x80") == 0);              // tail without a lead
}

TEST_CASE("given text beyond ASCII, then columns count code points") {
  CHECK(count_code_points("4.7 kΩ") == 6);
  CHECK(byte_of_code_point("4.7 kΩ!", 6) == 7);
  CHECK(byte_of_code_point("ab", 9) == 2);
  CHECK(count_code_points("\xB5\xB5") == 2);
}

TEST_CASE("given a mistyped word, then the nearest valid one is offered") {
  const std::vector<std::string> words{"adapter", "converter", "charger", "capacitor", "fuse"};
  CHECK(nearest_word("adaptor", words) == "adapter");
  CHECK(nearest_word("chagrer", words) == "charger");
  CHECK(nearest_word("FUSE", words) == "fuse");
  CHECK(nearest_word("fus", words) == "fuse");
  CHECK_FALSE(nearest_word("gyroscope", words));
  CHECK_FALSE(nearest_word("x", {"y"}));
  CHECK_FALSE(nearest_word("", words));
}

TEST_CASE("given two words, then a swap of neighbours is one slip") {
  CHECK(edit_distance("ca", "ac", 3) == 1);
  CHECK(edit_distance("kitten", "sitting", 5) == 3);  // textbook pair of Levenshtein's distance
  CHECK(edit_distance("ca", "abc", 5) == 3);          // 2 without the restriction: from memory
  CHECK(edit_distance("abcdef", "uvwxyz", 2) == 3);
}

TEST_CASE("given words, then a list reads like a sentence") {
  CHECK(list_in_words({}) == "");
  CHECK(list_in_words({"a"}) == "a");
  CHECK(list_in_words({"a", "b"}) == "a or b");
  CHECK(quoted_list({"a", "b", "c"}, "and") == "`a`, `b` and `c`");
}

TEST_CASE("given a number, then its text has the digits asked for and no exponent in sight") {
  CHECK(number_text(0.1) == "0.1");
  CHECK(number_text(24.06, 3) == "24.1");
  CHECK(number_text(1234.0, 2) == "1200");
  CHECK(number_text(0.000123456, 3) == "0.000123");
  CHECK(number_text(999.96, 4) == "1000");
  CHECK(number_text(-12.0, 3) == "-12");
  CHECK(number_text(0.0, 3) == "0");
  CHECK(number_text(1e22, 3) == "1.00e+22");
}

TEST_CASE("given any double, when printed shortest, then it reads back the same") {
  for (const double number :
       {1.0 / 3.0, 6.02214076e23, 4.9e-324, -0.0, std::numeric_limits<double>::max()}) {
    CHECK(std::strtod(number_text(number).c_str(), nullptr) == number);
  }
}

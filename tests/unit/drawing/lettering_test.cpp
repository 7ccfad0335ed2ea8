#include "drawing/lettering.hpp"

#include <string>
#include <vector>

#include <doctest/doctest.h>

using namespace tideover::drawing;

TEST_CASE("words are as wide as the advance widths of their letters") {
  // Helvetica, of 1000: t 278, i 222, d 556, e 556 (published font metrics, from memory).
  CHECK(text_width_mm("tide", 10.0) == doctest::Approx(2.78 + 2.22 + 5.56 + 5.56));
  // All digits are equally wide, so that numbers line up.
  CHECK(text_width_mm("1234567890", 1.0) == doctest::Approx(5.56));
  CHECK(text_width_mm("", 2.4) == 0.0);
  CHECK(text_width_mm("tide", 10.0, true) > text_width_mm("tide", 10.0));
}

TEST_CASE("a letter of several bytes counts once") {
  CHECK(text_width_mm("é", 1.0) == doctest::Approx(0.7));
  CHECK(text_width_mm("°C", 1.0) == doctest::Approx(0.4 + 0.722));
}

TEST_CASE("malformed UTF-8 reads as one replacement character a byte and never runs over") {
  for (const std::string text : {"\xC3", "\xE2\x82", "\xF0\x9F\x98", "\x80", "\xFF", "\xC0\xAF",
                                 "\xED\xA0\x80", "\xF5\x80\x80\x80", "\xC3(", "\xE2(\xA1"}) {
    CAPTURE(text);
    const CodePoint first = first_code_point(text);
    CHECK(first.value == 0xFFFD);
    CHECK(first.rest.size() == text.size() - 1);
  }
  CHECK(first_code_point("\xF0\x9F\x98\x80x").value == 0x1F600);
  CHECK(first_code_point("\xF0\x9F\x98\x80x").rest == "x");
}

TEST_CASE("words break at spaces and each line keeps within the width") {
  const std::string words = "The mains goes after half an hour, and the relay lets go.";
  const std::vector<std::string> lines = wrapped(words, 2.4, 20.0);
  REQUIRE(lines.size() > 2);
  std::string joined;
  for (const std::string& line : lines) {
    CHECK(text_width_mm(line, 2.4) <= 20.0);
    joined += (joined.empty() ? "" : " ") + line;
  }
  CHECK(joined == words);
  CHECK(wrapped("unbreakable", 2.4, 1.0) == std::vector<std::string>{"unbreakable"});
  CHECK(wrapped("  ", 2.4, 10.0).empty());
}

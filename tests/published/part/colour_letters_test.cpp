// Colour letters of wires, IEC 60757: order of the list and the two rules read
// (freedocumentsdownload.com, filipinoengineer.com), letters from memory.
#include <array>
#include <string>
#include <string_view>

#include <doctest/doctest.h>

#include "part/wire/colour.hpp"

using namespace tideover;

TEST_CASE("IEC 60757 letters in the order of the standard") {
  constexpr std::array<std::string_view, 14> order{"BK", "BN", "RD", "OG", "YE", "GN", "BU",
                                                   "VT", "GY", "WH", "PK", "GD", "TQ", "SR"};
  const auto& letters = part::colour_letters();
  REQUIRE(letters.size() == order.size());
  for (std::size_t k = 0; k < order.size(); ++k) {
    CHECK(letters[k].letters == order[k]);
    CHECK(!part::colour_fault(order[k], false));
  }
}

TEST_CASE("IEC 60757 combinations are joined without a gap in the order of the list") {
  CHECK(!part::colour_fault("RDBU", false));
  CHECK(!part::colour_fault("BKWH", false));
  CHECK(part::colour_fault("BURD", false) == "`BURD` is out of order; IEC 60757 writes RDBU");
  CHECK(part::colour_fault("RD BU", false).has_value());
  CHECK(part::colour_fault("RDRD", false) == "`RDRD` names a colour twice; write it once");
  CHECK(part::colour_in_words("RDBU") == "red and blue");
}

TEST_CASE("IEC 60757 keeps green and yellow together for protective earth") {
  CHECK(!part::colour_fault("GNYE", true));
  CHECK(part::colour_fault("GNYE", false).has_value());
  CHECK(part::colour_fault("YEGN", false).has_value());
  CHECK(part::colour_fault("YEGN", true) == "`YEGN` is out of order; IEC 60757 writes GNYE");
  CHECK(part::colour_fault("RD", true) ==
        "a protective earth wire is green and yellow; write GNYE");
  CHECK(!part::colour_fault("GN", false));
  CHECK(!part::colour_fault("YE", false));
}

TEST_CASE("a colour by name is led to its letters") {
  CHECK(part::colour_fault("red", false) == "`red` is no colour code of IEC 60757; write RD");
  CHECK(part::colour_fault("XY", false)->find("BK, BN, RD") != std::string::npos);
}

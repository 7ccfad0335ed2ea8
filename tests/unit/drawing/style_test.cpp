#include "drawing/style.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include <doctest/doctest.h>

using namespace tideover::drawing;

namespace {

// Source: WCAG 2.1, definitions of relative luminance and contrast ratio (W3C Recommendation).
double luminance(Colour colour) {
  const auto linear = [](int level) {
    const double share = level / 255.0;
    return share <= 0.03928 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

double contrast(Colour a, Colour b) {
  const double lighter = std::max(luminance(a), luminance(b));
  const double darker = std::min(luminance(a), luminance(b));
  return (lighter + 0.05) / (darker + 0.05);
}

}  // namespace

TEST_CASE("the first six series differ in their dashes, so that colour may be missing") {
  std::set<Dash> dashes;
  for (std::size_t i = 0; i < 6; ++i) dashes.insert(series_stroke(i).dash);
  CHECK(dashes.size() == 6);
  CHECK(series_stroke(6).dash == series_stroke(0).dash);
  CHECK(series_stroke(6).width_mm > series_stroke(0).width_mm);
}

TEST_CASE("in colour and in grey, lines and words stand out from every ground they run over") {
  for (const Ink ground : {Ink::Paper, Ink::Tint, Ink::Ground}) {
    for (std::size_t i = 0; i < 6; ++i) {
      const Colour line = colour_of(series_stroke(i).ink);
      // WCAG 2.1, 1.4.11: graphics need 3 to 1.
      CHECK(contrast(line, colour_of(ground)) >= 3.0);
      CHECK(contrast(as_grey(line), as_grey(colour_of(ground))) >= 3.0);
    }
  }
  for (const Ink words : {Ink::Main, Ink::Quiet, Ink::Caution}) {
    // WCAG 2.1, 1.4.3: words need 4.5 to 1.
    CHECK(contrast(colour_of(words), colour_of(Ink::Paper)) >= 4.5);
    CHECK(contrast(colour_of(words), colour_of(Ink::Tint)) >= 4.5);
  }
}

TEST_CASE("grey is the luma of the colour") {
  CHECK(as_grey({255, 255, 255}) == Colour{255, 255, 255});
  CHECK(as_grey({255, 0, 0}) == Colour{76, 76, 76});
  CHECK(as_grey({0, 255, 0}) == Colour{150, 150, 150});
  CHECK(as_grey({0, 0, 255}) == Colour{29, 29, 29});
}

TEST_CASE("dash patterns alternate mark and gap") {
  for (const Dash dash :
       {Dash::Long, Dash::Short, Dash::LongShort, Dash::Dotted, Dash::LongShortShort}) {
    CHECK(dash_lengths_mm(dash).size() % 2 == 0);
    CHECK_FALSE(dash_lengths_mm(dash).empty());
  }
  CHECK(dash_lengths_mm(Dash::Solid).empty());
}
